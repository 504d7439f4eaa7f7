import type { Refusal } from '../../shared/refusal.ts'

/** How often each kind of act was accepted, and with which codes it was refused. */
export class Tally {
  readonly #accepted = new Map<string, number>()
  readonly #refused = new Map<string, Map<string, number>>()

  note(kind: string, { refusal }: { refusal: Refusal | undefined }): void {
    if (refusal === undefined) {
      this.#accepted.set(kind, (this.#accepted.get(kind) ?? 0) + 1)
      return
    }
    const codes = this.#refused.get(kind) ?? new Map<string, number>()
    codes.set(refusal.code, (codes.get(refusal.code) ?? 0) + 1)
    this.#refused.set(kind, codes)
  }

  accepted(kind: string): number {
    return this.#accepted.get(kind) ?? 0
  }

  refused(kind: string): number {
    return [...(this.#refused.get(kind)?.values() ?? [])].reduce((sum, times) => sum + times, 0)
  }

  /** One row a kind, for whoever wonders how much was really tried. */
  table(kinds: readonly string[]): string {
    const rows = kinds.map((kind) => {
      const codes = [...(this.#refused.get(kind) ?? [])].map(([code, times]) => `${code} ${times}`)
      const counts = `${String(this.accepted(kind)).padStart(5)}${String(this.refused(kind)).padStart(8)}`
      return `${kind.padEnd(18)}${counts}   ${codes.join(', ')}`
    })
    return [`${'kind'.padEnd(18)}  done refused`, ...rows].join('\n')
  }
}
