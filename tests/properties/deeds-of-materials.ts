import { countMaterial } from '../../db/acts/count-material.ts'
import { fireEmpty } from '../../db/acts/fire-empty.ts'
import { receiveMaterials, type DeliveredMaterial } from '../../db/acts/receive-materials.ts'
import { USES, useMaterial, type Use } from '../../db/acts/use-material.ts'
import type { EnergySaid, FiringSaid } from '../../db/firing-said.ts'
import type { PackingSaid } from '../../db/packing.ts'
import type { Place } from '../../shared/place.ts'
import type { Dice } from '../support/arbitraries.ts'
import { PER_KILOWATT_HOUR, WEAR_PER_FIRING } from '../support/furnish-materials.ts'
import { deedOf, type DeedMaker, type Foretold } from './deed.ts'
import { gramsOf, partOf, priceOf, readingOf, someGrams, waterOf } from './said.ts'
import type { HeldHere, View } from './view.ts'

const WEIGHED = ['quartz', 'whiting', 'gas', 'paper'] as const
const COUNTED = ['box', 'shelf'] as const

function onShelf(view: View, materialId: string): HeldHere | undefined {
  return view.holdings.find((held) => held.place === 'materials' && held.materialId === materialId)
}

function materialIn(dice: Dice): string {
  if (dice.isOnceIn(30)) return 'no-material'
  return dice.isOnceIn(3) ? dice.pick(COUNTED) : dice.pick(WEIGHED)
}

const isCounted = (materialId: string) => (COUNTED as readonly string[]).includes(materialId)

const receive: DeedMaker = (_view, dice) => {
  const materials: DeliveredMaterial[] = []
  let counted = 0
  for (let left = 1 + dice.roll(3); left > 0; left -= 1) {
    const materialId = materialIn(dice)
    // The door asks that a delivery names each material once.
    if (materials.some((one) => one.materialId === materialId)) continue
    const price = priceOf(dice)
    if (isCounted(materialId)) {
      const pieces = 1 + dice.roll(60)
      counted += pieces
      materials.push({ materialId, price, pieces })
    } else if (dice.isOnceIn(3)) {
      materials.push({ materialId, price, mass: { value: '25', unit: 'kg' } })
    } else {
      const reading = readingOf(someGrams(dice, 9000), dice)
      materials.push({ materialId, price, reading, water: waterOf(dice) })
    }
  }
  const freight = dice.isOnceIn(2) ? undefined : priceOf(dice)
  const bought = [...materials.map(({ price }) => price), freight ?? '0']
  const pieces = { materials: counted, supplier: -counted }
  return deedOf(dice, { act: receiveMaterials, said: { materials, freight } }, { pieces, bought })
}

const count: DeedMaker = (view, dice) => {
  const materialId = materialIn(dice)
  const held = onShelf(view, materialId)
  if (isCounted(materialId)) {
    const there = held?.pieces ?? 0
    const pieces = dice.roll(there + 4)
    const more = pieces - there
    const said = pieces === 0 ? { nothingLeft: true as const } : { pieces }
    return deedOf(
      dice,
      { act: countMaterial, said: { materialId, ...said } },
      { pieces: { materials: more, unexplained: -more } },
    )
  }
  const wetGrams = held === undefined || held.wetGrams.isZero() ? undefined : held.wetGrams
  const reading = readingOf(wetGrams?.times(dice.pick(WEIGHED_AGAIN)) ?? someGrams(dice, 900), dice)
  const said = dice.isOnceIn(12) ? { nothingLeft: true as const } : { reading }
  return deedOf(dice, { act: countMaterial, said: { materialId, ...said } })
}
const WEIGHED_AGAIN = ['1', '0.97', '1.04', '0.5'] as const

const use: DeedMaker = (view, dice) => {
  const materialId = materialIn(dice)
  const held = onShelf(view, materialId)
  const why = materialId === 'shelf' ? 'into_kiln' : dice.pick(Object.keys(USES) as [Use, ...Use[]])
  if (dice.isOnceIn(10)) {
    const pieces = movedTo(USES[why], held?.pieces ?? 0)
    return deedOf(
      dice,
      { act: useMaterial, said: { materialId, why, whatIsLeft: true } },
      { pieces },
    )
  }
  if (isCounted(materialId)) {
    const pieces = 1 + dice.roll(1 + (held?.pieces ?? 1))
    const act = useMaterial
    return deedOf(
      dice,
      { act, said: { materialId, why, pieces } },
      { pieces: movedTo(USES[why], pieces) },
    )
  }
  const grams = partOf(held?.wetGrams ?? someGrams(dice, 100), dice)
  const amount = dice.isOnceIn(2)
    ? { mass: gramsOf(grams, 0) }
    : { reading: readingOf(grams, dice) }
  return deedOf(dice, { act: useMaterial, said: { materialId, why, ...amount } })
}

const movedTo = (to: Place, pieces: number) => ({ materials: -pieces, [to]: pieces })

const HOURS = ['120', '41.5', '0.01', '73.333']

/** What is told of a fire's energy, and what the month's bill and the wear must come to, if that is plain. */
export function energyOf(view: View, dice: Dice): { said: EnergySaid & { kilnId: string } } & Bill {
  const gas = onShelf(view, 'gas')
  if (dice.isOnceIn(3)) {
    const burnt = gramsOf(partOf(gas?.wetGrams ?? someGrams(dice, 500), dice), 0)
    const said = { kilnId: 'gas-kiln', fuel: { burnt } }
    return { said, bill: { utility: '0', wear: WEAR_PER_FIRING } }
  }
  const kilnId = dice.isOnceIn(25) ? 'no-kiln' : 'electric'
  const kilowattHours = dice.pick(['120', ...HOURS])
  const price = dice.isOnceIn(3) ? '0.25' : undefined
  const utility = (Number(kilowattHours) * Number(price ?? PER_KILOWATT_HOUR)).toFixed(6)
  const bill = { utility, wear: WEAR_PER_FIRING }
  const told = { kilnId, pricePerKilowattHour: price }
  return dice.pick<{ said: EnergySaid & { kilnId: string } } & Bill>([
    { said: { ...told, kilowattHours }, bill },
    { said: { ...told, meter: { before: '1000', after: '1120' } }, bill: undefined },
    { said: { ...told, hours: '8' }, bill: undefined },
    { said: { kilnId }, bill: undefined },
  ])
}
interface Bill {
  readonly bill: Foretold['bill']
}

/** What is told of a fire with pots in it; mostly something. */
export function firingOf(view: View, dice: Dice): { firing?: FiringSaid } & Bill {
  if (dice.isOnceIn(4)) return { bill: { utility: '0', wear: '0' } }
  const { said, bill } = energyOf(view, dice)
  const isCandled = said.kilnId === 'electric' && dice.isOnceIn(5)
  const firing = {
    ...said,
    ...(isCandled ? { candling: { kilowattHours: '4' } } : {}),
    shareBy: dice.pick([undefined, 'shelf_space', 'mass', 'count'] as const),
  }
  return { firing, bill: isCandled ? undefined : bill }
}

const empty: DeedMaker = (view, dice) => {
  const { said, bill } = energyOf(view, dice)
  const why = dice.pick(['candling', 'test', 'standby'] as const)
  // A kiln that is only held low wears nothing.
  const owed = bill === undefined || why === 'test' ? bill : { ...bill, wear: '0' }
  return deedOf(dice, { act: fireEmpty, said: { ...said, why } }, { pieces: {}, bill: owed })
}

/** What pots are packed in when they are sold, and how many boxes go with them. */
export function packingOf(
  view: View,
  dice: Dice,
  sold: { formId: string; pieces: number },
): { packing: PackingSaid | undefined; boxes: number } {
  const paper = onShelf(view, 'paper')
  const some = gramsOf(partOf(paper?.wetGrams ?? someGrams(dice, 40), dice), 0)
  const isMug = sold.formId === 'mug'
  return dice.pick<{ packing: PackingSaid | undefined; boxes: number }>([
    { packing: undefined, boxes: 0 },
    // What has no usual packing is refused as usual.
    ...(isMug ? [{ packing: 'as_usual' as const, boxes: sold.pieces }] : []),
    { packing: [{ materialId: 'box', pieces: 2 }], boxes: 2 },
    { packing: [{ materialId: 'paper', mass: some }], boxes: 0 },
  ])
}

export const DEEDS_OF_MATERIALS = {
  receive_materials: receive,
  count_material: count,
  use_material: use,
  fire_empty: empty,
} as const satisfies Record<string, DeedMaker>
