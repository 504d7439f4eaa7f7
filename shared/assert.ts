/** A broken promise inside the program: never the caller's fault, always ours. */
export class Defect extends Error {
  override readonly name = 'Defect'
}

/** Stops the work where one of our own promises does not hold. */
export function assert(holds: boolean, promise: string): asserts holds {
  if (!holds) throw new Defect(`Broken promise: ${promise}`)
}

/** What must be there, or a broken promise of ours. */
export function present<T>(one: T | undefined, promise: string): T {
  assert(one !== undefined, promise)
  return one
}
