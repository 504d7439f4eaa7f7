import { OUTSIDE } from '../../shared/month-network.ts'
import type { MonthFlow } from '../../shared/month-network.ts'
import type { Chance } from './chance.ts'

/** How a flow comes to be known. */
export type Way =
  | {
      readonly by: 'scale'
      /** The figure that turns wet into dry, which all readings of this clay in this state share. */
      readonly source: string
      readonly waterFraction: number
      readonly waterUncertainty: number
    }
  | { readonly by: 'guess'; readonly dryGrams: number; readonly uncertaintyGrams: number }

/** What truly moved, and how it comes to be known. */
export interface TrueFlow extends Pick<MonthFlow, 'id' | 'kind' | 'from' | 'to'> {
  readonly dryGrams: number
  readonly way: Way
  /** Pots between two acts, which not every studio weighs; they are also counted. */
  readonly isWare?: boolean
}

const DAYS = 4
const RUNS_A_DAY = 2

const BAGS = scale('water of the bags', 0.205, 0.004)
const SLOPS = scale('water of the slops', 0.75, 0.01)
const SCRAP = scale('water of the scrap', 0.015, 0.01)
const SLURRY = scale('density of the slurry', 0.45, 0.01)
const LIFTED = scale('water of the lifted clay', 0.23, 0.004)
const BONE_DRY = scale('water of the bone-dry pots', 0.015, 0.005)
/** What the fire takes stands where water does elsewhere; a fired mass is told as dry. */
const FIRED = scale('loss on ignition', 0, 0.001)

/** Where clay stays at the end of the month, and how it is known then. */
const CLOSINGS: readonly (readonly [MonthFlow['from'], Way])[] = [
  ['store', BAGS],
  ...numbers(DAYS).map((day) => [`bench/bags of day ${day}`, BAGS] as const),
  ['bench/collapsed', BAGS],
  ['bench/lifted', LIFTED],
  ['scrap/turnings', SCRAP],
  ['scrap/slops', SLOPS],
  ['basin', SLURRY],
]

/**
 * A month of a small studio: bags are opened on four days, two runs are thrown from each, turned, dried
 * and fired; slops and turnings are slaked, poured on plaster and lifted; everything is weighed.
 */
export function trueMonth(chance: Chance): TrueFlow[] {
  const moved = [
    opening('store', chance.between(80_000, 120_000), BAGS),
    flow('delivery', [OUTSIDE, 'store'], ['receive_delivery', chance.between(195e3, 201e3), BAGS]),
    ...numbers(DAYS).flatMap((day) => [
      flow(
        `bags of day ${day}`,
        ['store', `bench/bags of day ${day}`],
        ['open_bag', chance.between(24_000, 30_000), BAGS],
      ),
      ...numbers(RUNS_A_DAY).flatMap((run) => runOf(chance, { day, run: `${day}.${run}` })),
    ]),
    ...reclaimed(chance),
  ]
  const closings = CLOSINGS.map(([node, way]) =>
    flow(`closing of ${node}`, [node, OUTSIDE], ['closing', leftAt(node, moved), way]),
  )
  return [...moved, ...closings]
}

function runOf(chance: Chance, { day, run }: { day: number; run: string }): TrueFlow[] {
  const pieces = chance.whole(8, 12)
  const thrown = pieces * chance.between(350, 900)
  const slops = thrown * chance.between(0.02, 0.05)
  const hands = thrown * chance.between(0, 0.004)
  const collapsed = thrown / pieces
  const ware = thrown - slops - hands - collapsed
  const turnings = thrown * chance.between(0.08, 0.2)
  const left = ware - turnings
  const [bench, wheel, kiln] = [
    `bench/bags of day ${day}`,
    `greenware/${run}`,
    `bisque/${run}`,
  ] as const
  const [leather, turned] = [`${wheel}/leather`, `${wheel}/turned`] as const
  const leatherHard = scale(`water of run ${run} when turned`, 0.17, 0.004)
  const guess = guessed(0.002 * thrown)
  const ofRun = (what: string) => `${what} of run ${run}`
  return [
    flow(ofRun('balls'), [bench, wheel], ['throw', thrown, BAGS]),
    flow(ofRun('slops'), [wheel, 'scrap/slops'], ['collect_slops', slops, SLOPS]),
    flow(ofRun('hands'), [wheel, OUTSIDE], ['collect_slops', hands, guess]),
    flow(ofRun('collapsed pot'), [wheel, 'bench/collapsed'], ['lose', collapsed, BAGS]),
    wareFlow(ofRun('thrown pots'), [wheel, leather], ['weigh_run', ware, leatherHard]),
    flow(ofRun('turnings'), [leather, 'scrap/turnings'], ['turn', turnings, leatherHard]),
    wareFlow(ofRun('turned pots'), [leather, turned], ['weigh_run', left, leatherHard]),
    flow(ofRun('kiln load'), [turned, kiln], ['bisque', left, BONE_DRY]),
    flow(ofRun('fired pots'), [kiln, OUTSIDE], ['bisque', left, FIRED]),
  ]
}

function reclaimed(chance: Chance): TrueFlow[] {
  const [turnings, slops] = [chance.between(4e3, 5e3), chance.between(1e3, 2e3)]
  return [
    opening('bench/collapsed', chance.between(1_000, 3_000), BAGS),
    opening('bench/lifted', chance.between(3_000, 9_000), LIFTED),
    opening('scrap/turnings', chance.between(4_000, 9_000), SCRAP),
    opening('scrap/slops', chance.between(2_000, 4_000), SLOPS),
    opening('basin', chance.between(9_000, 15_000), SLURRY),
    flow('slaked turnings', ['scrap/turnings', 'basin'], ['slake', turnings, SCRAP]),
    flow('slaked slops', ['scrap/slops', 'basin'], ['slake', slops, SLOPS]),
    ...numbers(3).flatMap((load) => {
      const poured = chance.between(3_000, 4_000)
      const scraped = chance.between(0, 20)
      const [plaster, lifted] = [`plaster/${load}`, poured - scraped] as const
      return [
        flow(`pouring of load ${load}`, ['basin', plaster], ['pour', poured, SLURRY]),
        flow(`scrapings of load ${load}`, [plaster, OUTSIDE], ['lift', scraped, guessed(10)]),
        flow(`lifting of load ${load}`, [plaster, 'bench/lifted'], ['lift', lifted, LIFTED]),
      ]
    }),
  ]
}

type Ends = readonly [TrueFlow['from'], TrueFlow['to']]
type Moved = readonly [TrueFlow['kind'], number, Way]

function flow(id: string, [from, to]: Ends, [kind, dryGrams, way]: Moved): TrueFlow {
  return { id, from, to, kind, dryGrams, way }
}

function wareFlow(id: string, ends: Ends, moved: Moved): TrueFlow {
  return { ...flow(id, ends, moved), isWare: true }
}

function opening(node: TrueFlow['to'], dryGrams: number, way: Way): TrueFlow {
  return flow(`opening of ${node}`, [OUTSIDE, node], ['opening', dryGrams, way])
}

/** Anything from nothing to twice the guess is as likely. */
function guessed(dryGrams: number): Way {
  return { by: 'guess', dryGrams, uncertaintyGrams: dryGrams / Math.sqrt(3) }
}

function scale(source: string, waterFraction: number, waterUncertainty: number): Way {
  return { by: 'scale', source, waterFraction, waterUncertainty }
}

function leftAt(node: string, moved: readonly TrueFlow[]): number {
  return moved.reduce(
    (sum, { from, to, dryGrams }) =>
      sum + (to === node ? dryGrams : 0) - (from === node ? dryGrams : 0),
    0,
  )
}

function numbers(count: number): number[] {
  return Array.from({ length: count }, (_, index) => index + 1)
}
