import type { Decimal } from '../shared/decimal.ts'
import { isInside, PLACE_WORDS } from '../shared/place.ts'
import type { Quantities } from '../shared/quantity.ts'
import { Refusal } from '../shared/refusal.ts'
import type { HoldingRef } from './holdings.ts'

interface Store {
  readonly holdingId: string
  readonly ref: HoldingRef
  readonly held: Quantities
}

/**
 * Refuses where more is to leave a holding of the studio's own than it has, and says how much it has.
 *
 * Refuses: `pieces_must_be_enough`, `clay_must_be_enough`, `material_must_be_enough`,
 * `water_must_be_enough`.
 */
export function refuseTooMuch(from: Store, what: Quantities): void {
  if (!isInside(from.ref.place)) return
  const { held } = from
  if (what.pieces.greaterThan(held.pieces)) throw tooFew(from, what.pieces)
  if (what.dryGrams.greaterThan(held.dryGrams)) throw tooLittle(from, what.dryGrams)
  if (what.materialGrams.greaterThan(held.materialGrams)) {
    throw tooLittleMaterial(from, what.materialGrams)
  }
  if (what.waterGrams.greaterThan(held.waterGrams)) throw tooDry(from, what.waterGrams)
}

function tooFew({ holdingId, ref, held }: Store, pieces: Decimal): Refusal {
  const there = held.pieces.toFixed()
  return new Refusal(
    'pieces_must_be_enough',
    `There are ${there} here (${PLACE_WORDS[ref.place]}); ${pieces.toFixed()} were to leave. If there are more, a count may be due.`,
    { facts: { holdingId, held: there } },
  )
}

function tooLittle({ holdingId, ref, held }: Store, dryGrams: Decimal): Refusal {
  const wetGrams = held.dryGrams.plus(held.waterGrams)
  return new Refusal(
    'clay_must_be_enough',
    `There are ${shown(held.dryGrams)} g of dry clay (${shown(wetGrams)} g wet) here (${PLACE_WORDS[ref.place]}); ${shown(dryGrams)} g dry were to leave. If there is more, a count may be due.`,
    {
      facts: {
        holdingId,
        heldDryGrams: held.dryGrams.toFixed(),
        heldWetGrams: wetGrams.toFixed(),
        wantedDryGrams: dryGrams.toFixed(),
      },
    },
  )
}

function tooLittleMaterial({ holdingId, ref, held }: Store, wanted: Decimal): Refusal {
  const what = ref.materialId === undefined ? 'glaze on these pots' : `'${ref.materialId}'`
  return new Refusal(
    'material_must_be_enough',
    `There are ${shown(held.materialGrams)} g dry of ${what} here (${PLACE_WORDS[ref.place]}); ${shown(wanted)} g were to leave. If there is more, enter its delivery or count it.`,
    {
      facts: {
        holdingId,
        heldDryGrams: held.materialGrams.toFixed(),
        wantedDryGrams: wanted.toFixed(),
      },
    },
  )
}

function tooDry({ holdingId, ref, held }: Store, waterGrams: Decimal): Refusal {
  return new Refusal(
    'water_must_be_enough',
    `There are ${shown(held.waterGrams)} g of water here (${PLACE_WORDS[ref.place]}); ${shown(waterGrams)} g were to leave. If there is more, a count may be due.`,
    { facts: { holdingId, heldWaterGrams: held.waterGrams.toFixed() } },
  )
}

function shown(grams: Decimal): string {
  return grams.toDecimalPlaces(1).toFixed()
}
