import { ZERO } from '../../shared/decimal.ts'
import { bearFire, fireTook, wordsOf, writeFiring } from '../firing-charge.ts'
import type { EnergySaid } from '../firing-said.ts'
import type { Act, Circumstances } from '../perform.ts'

/** Why a kiln was hot with no pots in it. */
export const WHY_EMPTY = ['candling', 'standby', 'new_elements', 'test', 'other'] as const

export interface FireEmptySaid extends Circumstances, EnergySaid {
  readonly kilnId: string
  readonly why: (typeof WHY_EMPTY)[number]
}

/** Held low, it does not fire: it draws little, and wears its elements and shelves by no firing. */
const HELD_LOW: readonly FireEmptySaid['why'][] = ['candling', 'standby']

/**
 * A kiln is hot with nothing in it: no pot bears what that takes. Wear is charged where it truly fires,
 * and not where it is only held low.
 */
export const fireEmpty: Act<FireEmptySaid> = {
  kind: 'fire_empty',
  async write(book, said) {
    const isHeldLow = HELD_LOW.includes(said.why)
    const doing = isHeldLow ? 'candling' : 'fired_empty'
    const found = await fireTook(book, { said, doing, at: '' })
    const took = isHeldLow ? { ...found, wear: ZERO } : found
    await writeFiring(book, took, { kind: 'empty' })
    const idle = await book.outsideLike('idle', { bodyId: '' })
    await bearFire(book, took, {
      pots: idle,
      electricity: took.electricity?.cost ?? ZERO,
      gas: took.fuel?.spent.cost ?? ZERO,
      wear: took.wear,
    })
    return { energy: wordsOf(took) }
  },
}
