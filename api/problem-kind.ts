export type ProblemStatus = 400 | 403 | 404 | 405 | 409 | 413 | 415 | 422 | 500 | 503

/** What a problem is answered with, and what its page says. */
export interface ProblemKind {
  readonly status: ProblemStatus
  readonly title: string
  readonly whatHappened: string
  readonly whatToDo: string
}
