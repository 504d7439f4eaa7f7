import fc from 'fast-check'
import { faces } from '../support/arbitraries.ts'
import { furnishMaterials } from '../support/furnish-materials.ts'
import { countedIds, furnish, openTestStudio, type TestStudio } from '../support/studio.ts'
import { DEEDS, modelOf, type Model, type Real } from './commands.ts'
import { goodDay } from './studio-day.ts'
import { Tally } from './tally.ts'

export const SECOND = 1000

/** Studios of their own in one database, so that no sequence finds what another has left. */
export class FreshStudios {
  readonly tally = new Tally()
  readonly #first: TestStudio
  #made = 0

  constructor(first: TestStudio) {
    this.#first = first
  }

  static async open(choices: { poolSize?: number } = {}): Promise<FreshStudios> {
    return new FreshStudios(await openTestStudio(choices))
  }

  close(): Promise<void> {
    return this.#first.close()
  }

  async another(): Promise<Real> {
    this.#made += 1
    const studioId = `studio-${String(this.#made)}`
    const { db } = this.#first.services
    await furnish({ db }, studioId)
    // Every other pair of studios lets its seconds cost less.
    await furnishMaterials(
      { db },
      studioId,
      Math.ceil(this.#made / 2) % 2 === 0 ? 'by_price' : 'like_firsts',
    )
    const services = { ...this.#first.services, newId: countedIds() }
    return { services, studioId, tally: this.tally }
  }

  /** One in which a good day has passed, and what is known of it. */
  async afterAGoodDay(isChecked = false): Promise<{ real: Real; model: Model }> {
    const real = await this.another()
    const model = await modelOf(real, isChecked)
    for (const done of goodDay()) await done.run(model, real)
    return { real, model }
  }
}

/** Everything that can be done, by its kind; what has no deed of its own is a correction. */
export const KINDS: readonly string[] = [...Object.keys(DEEDS), 'correct']

/** Something to do, and the dice that choose how. */
export interface Wish {
  readonly kind: string
  readonly shown: readonly number[]
}

export function wishes(kinds: readonly string[], length: number): fc.Arbitrary<Wish[]> {
  const wish = fc.record({ kind: fc.constantFrom(...kinds), shown: faces })
  return fc.array(wish, { minLength: length, maxLength: length })
}
