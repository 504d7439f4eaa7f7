import { closeMonth } from '../../db/acts/close-month.ts'
import { collectSlops } from '../../db/acts/collect-slops.ts'
import { countHolding } from '../../db/acts/count.ts'
import { decant } from '../../db/acts/decant.ts'
import { countMaterial } from '../../db/acts/count-material.ts'
import { discard } from '../../db/acts/discard.ts'
import { testDry } from '../../db/acts/dry-test.ts'
import { bisqueFire, glazeFire } from '../../db/acts/fire.ts'
import { fireEmpty } from '../../db/acts/fire-empty.ts'
import { glazePots } from '../../db/acts/glaze.ts'
import { gradeRun } from '../../db/acts/grade.ts'
import { joinClay } from '../../db/acts/join.ts'
import { lift } from '../../db/acts/lift.ts'
import { loseGlaze } from '../../db/acts/lose-glaze.ts'
import { losePieces } from '../../db/acts/lose.ts'
import { mixGlaze } from '../../db/acts/mix-glaze.ts'
import { moveLoad } from '../../db/acts/move-load.ts'
import { openBag } from '../../db/acts/open-bag.ts'
import { openBooks } from '../../db/acts/open-books.ts'
import { breakInShop, giveAway, keepPieces } from '../../db/acts/part-with.ts'
import { pour } from '../../db/acts/pour.ts'
import { readGlaze } from '../../db/acts/read-glaze.ts'
import { readSlurry } from '../../db/acts/read-slurry.ts'
import { receiveDelivery } from '../../db/acts/receive-delivery.ts'
import { receiveMaterials } from '../../db/acts/receive-materials.ts'
import { rewet } from '../../db/acts/rewet.ts'
import { sell } from '../../db/acts/sell.ts'
import { slake } from '../../db/acts/slake.ts'
import { throwRun } from '../../db/acts/throw.ts'
import { turnRun } from '../../db/acts/turn.ts'
import { useMaterial } from '../../db/acts/use-material.ts'
import { waterGlaze } from '../../db/acts/water-glaze.ts'
import { wedge } from '../../db/acts/wedge.ts'
import { weighOnPlaster } from '../../db/acts/weigh-on-plaster.ts'
import { weighRun } from '../../db/acts/weigh-run.ts'
import { weighScrap } from '../../db/acts/weigh-scrap.ts'
import type { Act, Circumstances } from '../../db/perform.ts'
import type { Grade } from '../../shared/place.ts'
import { Dice } from '../support/arbitraries.ts'
import { g, kg } from '../support/studio.ts'
import { Doing } from './commands.ts'
import { deedOf, type Foretold } from './deed.ts'
import { clayAt, piecesAt, type View } from './view.ts'

const SIMPLEST: readonly number[] = Array.from({ length: 24 }, () => 0)

/** An act told word for word; what it names by an id of the database is looked up at the time. */
function told<Said extends Circumstances>(
  act: Act<Said>,
  said: Said | ((view: View) => Said),
  pieces: Foretold['pieces'] & { bought?: string[] } = {},
): Doing {
  const { bought = [], ...moved } = pieces
  const make = (view: View) =>
    deedOf(
      new Dice(SIMPLEST),
      { act, said: typeof said === 'function' ? said(view) : said },
      { pieces: moved, bought },
    )
  return new Doing(act.kind, SIMPLEST, make)
}

const shelf = (grade: Grade) => ({ formId: 'mug', grade, pieces: 1 })
const out = { finished: -1, customer: 1 }

/**
 * A day that goes well: clay comes in and goes all the way to the customer and back to the bench, each
 * kind of act is done once, and something is left at every place for whatever happens next.
 */
export function goodDay(): Doing[] {
  return [
    ...clayComesIn(),
    ...materialsComeIn(),
    ...potsAreMade(),
    ...scrapIsReclaimed(),
    ...potsLeave(),
    ...books(),
  ]
}

function clayComesIn(): Doing[] {
  const bags = (bodyId: string, lotId: string, price: string) => ({
    ...{ bodyId, lotId, price, bags: 6, bagMass: kg('12.5') },
  })
  return [
    told(
      receiveDelivery,
      { clays: [bags('buff', 'd1', '90.10'), bags('white', 'd2', '77')], freight: '10.01' },
      { store: 12, supplier: -12, bought: ['90.10', '77', '10.01'] },
    ),
    told(openBooks, {
      items: [{ what: 'scrap', bodyId: 'white', vesselId: 'bucket-2', reading: { net: kg('5') } }],
    }),
    told(openBag, { lotId: 'd1', bags: 2, newLotId: 'o1' }, { store: -2, hands: 2 }),
    told(openBag, { lotId: 'd2', bags: 1, newLotId: 'o2' }, { store: -1, hands: 1 }),
    told(rewet, { lotId: 'o2', place: 'bench', water: g('150') }),
    told(testDry, {
      ...{ bodyId: 'buff', state: 'as_delivered', lotId: 'o1' },
      sample: { wetWithTin: g('100.0'), dryWithTin: g('79.6') },
    }),
  ]
}

const celadon = { glazeId: 'celadon', vesselId: 'glaze-1' }

function materialsComeIn(): Doing[] {
  const powder = (materialId: string, price: string) => ({ materialId, price, mass: kg('25') })
  return [
    told(
      receiveMaterials,
      { materials: [powder('quartz', '31.5'), powder('whiting', '24'), powder('paper', '8.1')] },
      { bought: ['31.5', '24', '8.1'] },
    ),
    told(
      receiveMaterials,
      {
        materials: [
          { materialId: 'box', price: '40', pieces: 70 },
          { materialId: 'shelf', price: '93.7', pieces: 3 },
          { ...powder('gas', '61'), mass: kg('11') },
        ],
        freight: '9.99',
      },
      { supplier: -73, materials: 73, bought: ['40', '93.7', '61', '9.99'] },
    ),
    told(mixGlaze, { ...celadon, dryGrams: '4000', water: kg('4') }),
    told(waterGlaze, { vesselId: 'glaze-1', water: g('300') }),
    told(readGlaze, {
      vesselId: 'glaze-1',
      density: { slurry: { net: g('715') }, volume: { value: '500', unit: 'ml' } },
    }),
    told(loseGlaze, { vesselId: 'glaze-1', why: 'sieve', reading: { net: g('40') } }),
    told(countMaterial, { materialId: 'box', pieces: 69 }, { materials: -1, unexplained: 1 }),
    told(
      useMaterial,
      { materialId: 'shelf', why: 'into_kiln', pieces: 1 },
      { materials: -1, wear: 1 },
    ),
    told(fireEmpty, { kilnId: 'electric', why: 'test', kilowattHours: '12.5' }),
  ]
}

function potsAreMade(): Doing[] {
  const balls = (lotId: string, count: number) => [{ lotId, balls: count, ballMass: kg('0.400') }]
  return [
    told(
      throwRun,
      { formId: 'mug', runId: 'r1', from: balls('o1', 20) },
      { greenware: 20, hands: -20 },
    ),
    told(
      throwRun,
      { formId: 'mug', runId: 'r2', from: balls('o2', 9) },
      { greenware: 9, hands: -9 },
    ),
    told(joinClay, {
      ...{ runId: 'r1', from: [{ lotId: 'o1', reading: { net: kg('1.60') } }] },
      offCuts: { reading: { net: g('350') }, vesselId: 'bucket-1' },
    }),
    told(collectSlops, {
      ...{ runIds: ['r1'], vesselId: 'bucket-1', state: 'slops' },
      reading: { net: kg('0.90') },
    }),
    told(turnRun, { runId: 'r1', vesselId: 'bucket-1', turnings: { net: kg('0.62') } }),
    told(
      losePieces,
      { runId: 'r1', pieces: 2, stage: 'drying', cause: 'cracked', vesselId: 'bucket-1' },
      { greenware: -2, hands: 2 },
    ),
    told(weighRun, { runId: 'r1', place: 'greenware', reading: { net: kg('7.4') } }),
    told(
      bisqueFire,
      { runs: [{ runId: 'r1', pieces: 16 }], firing: { kilnId: 'electric', kilowattHours: '41' } },
      { greenware: -16, bisque: 16 },
    ),
    told(glazePots, { ...celadon, runs: [{ runId: 'r1' }], usual: true }),
    told(
      glazeFire,
      {
        runs: [{ runId: 'r1', pieces: 13 }],
        firing: { kilnId: 'gas-kiln', fuel: { burnt: g('1100') } },
      },
      { bisque: -13, glazed: 13 },
    ),
    told(
      gradeRun,
      { runId: 'r1', firsts: 8, seconds: 2, wasters: 1 },
      { glazed: -11, finished: 10, waste: 1 },
    ),
  ]
}

function scrapIsReclaimed(): Doing[] {
  const reading = { net: kg('2.5') }
  return [
    told(weighScrap, { vesselId: 'bucket-1', bodyId: 'buff', state: 'turnings', reading }),
    told(slake, {
      fromVesselId: 'bucket-1',
      basinVesselId: 'basin-1',
      water: reading,
      scrap: reading,
    }),
    told(decant, { basinVesselId: 'basin-1', reading: { net: g('300') }, clarity: 'clear' }),
    told(readSlurry, {
      ...{ basinVesselId: 'basin-1', slurry: { net: g('1400') }, whole: { net: kg('4.7') } },
      volume: { value: '1', unit: 'l' },
    }),
    told(pour, {
      basinVesselId: 'basin-1',
      loads: ['bat-a', 'bat-b'].map((batId) => ({
        batId,
        lotId: `on-${batId}`,
        reading: { net: kg('1.5') },
      })),
    }),
    told(weighOnPlaster, { lotId: 'on-bat-a', reading: { net: kg('1.2') }, withPlaster: false }),
    told(lift, { lotId: 'on-bat-a', newLotId: 'reclaimed' }),
    told(moveLoad, { lotId: 'on-bat-b', batId: 'bat-a', reading: { net: kg('1.3') } }),
    told(
      wedge,
      {
        from: [
          { lotId: 'reclaimed', reading: { net: g('500') } },
          { lotId: 'o1', reading: { net: kg('2') } },
        ],
        additions: [{ name: 'grog', reading: { net: g('50') }, price: '0.123456' }],
        newLotId: 'wedged',
      },
      { bought: ['0.123456'] },
    ),
  ]
}

function potsLeave(): Doing[] {
  return [
    told(
      sell,
      { ...shelf('first'), priceEach: '18', channel: 'fair', packing: 'as_usual' },
      { finished: -1, materials: -1, customer: 2 },
    ),
    told(giveAway, shelf('first'), out),
    told(keepPieces, shelf('second'), out),
    told(breakInShop, shelf('first'), { finished: -1, waste: 1 }),
    new Doing('correct', SIMPLEST),
  ]
}

function books(): Doing[] {
  const scrapOf = (view: View) => clayAt(view, 'scrap')[0]?.holdingId ?? 'none'
  const storeOf = (view: View) => piecesAt(view, 'store')[0]?.holdingId ?? 'none'
  return [
    told(discard, (view) => ({
      ...{ holdingId: scrapOf(view), reading: { net: g('100') }, reason: 'plaster in it' },
    })),
    told(countHolding, (view) => ({ holdingId: storeOf(view), pieces: 3 }), {
      ...{ store: -1, unexplained: 1 },
    }),
    told(closeMonth, { month: '2026-03' }),
  ]
}
