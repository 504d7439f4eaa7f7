/** What is doubtful of the dry share of some clay: by source, as a part of its dry mass. */
export type Wetness = ReadonlyMap<string, number>

export const SURE: Wetness = new Map()

/**
 * Where the water contents of clays come from, followed as clay is moved and mixed.
 *
 * Clay that is weighed out of a holding is as dry as the books say of the holding, so its dry mass is
 * wrong by whatever the holding's water content rests on; so is all other clay of it, by as much.
 *
 * Units: parts of a dry mass. Source: GUM, JCGM 100:2008, 5.2 (from memory): common inputs err together.
 */
export class WetnessTrace {
  readonly #of = new Map<string, Wetness>()
  readonly #dryGrams = new Map<string, number>()

  of(id: string): Wetness {
    return this.#of.get(id) ?? SURE
  }

  becomes(id: string, wetness: Wetness): void {
    this.#of.set(id, wetness)
  }

  /** How much dry clay the books have there. */
  holds(id: string, dryGrams: number): void {
    this.#dryGrams.set(id, Math.max(0, dryGrams))
  }

  /** Some clay is mixed into what is there, each with its weight in dry clay. */
  receives(id: string, arriving: { dryGrams: number; wetness: Wetness }): void {
    const held = this.#dryGrams.get(id) ?? 0
    const whole = held + arriving.dryGrams
    if (whole <= 0) return
    this.#of.set(
      id,
      mixed([this.of(id), held / whole], [arriving.wetness, arriving.dryGrams / whole]),
    )
    this.#dryGrams.set(id, whole)
  }

  /** The clay was weighed as it is, its dry mass being known: its water rests on that weigh-in too. */
  restsOn(id: string, source: string, part: number): void {
    this.#of.set(id, new Map([...this.of(id), [source, part]]))
  }
}

function mixed(...parts: readonly (readonly [Wetness, number])[]): Wetness {
  const all = new Map<string, number>()
  for (const [wetness, share] of parts) {
    for (const [source, part] of wetness) all.set(source, (all.get(source) ?? 0) + share * part)
  }
  return all
}
