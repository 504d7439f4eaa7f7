import { monthBalance } from '../../shared/month-balance.ts'
import { Chance } from './chance.ts'
import type { SimulatedMonth } from './simulate-month.ts'
import { LOSS_ON_IGNITION, SimulatedBooks, type Looks } from './simulated-books.ts'

/** What of the routine is left out, to see what it is worth. */
export interface Routine {
  /** The buckets weighed whole at the end of each day, or each time that something goes in. */
  readonly weighsBuckets: 'no' | 'daily' | 'each_time'
  /** The pots weighed when thrown, before turning and after it. */
  readonly weighsPots: 'no' | 'after' | 'thrown_and_after' | 'all'
  /** Everything weighed at the end of the month. */
  readonly countsAtTheEnd: boolean
  /** One dry sample for all that is weighed of one clay in one state on one day, or one a weigh-in. */
  readonly samples: 'a_day' | 'a_weigh_in'
}

export const WORKED_DAY: Routine = {
  weighsBuckets: 'daily',
  weighsPots: 'all',
  countsAtTheEnd: true,
  samples: 'a_day',
}

const DAYS = 4
const RUNS_A_DAY = 2
/** How well water contents are measured, as in the worked day. */
const MEASURED = 0.004
const OF_SLOPS = 0.01
/** The dry share of pots as they are thrown, and when they are turned. */
const THROWN = 0.778
const LEATHER = 0.84

const measured = (of: string, more: Partial<Looks> = {}): Looks => ({
  ...{ of, waterUncertainty: MEASURED },
  ...more,
})

/**
 * A month of a studio that works as the handbook's worked day does, told by the real translation: bags
 * are opened and weighed, pots weighed when thrown, before turning and after it, turnings and slops as
 * they come, the buckets whole at the end of the day; slabs are poured and lifted, bisque is weighed,
 * and at the end of the month everything is counted.
 */
export function workedDayMonth(seed: number, routine: Routine = WORKED_DAY): SimulatedMonth {
  const books = new SimulatedBooks(new Chance(seed))
  const lossOnIgnition = LOSS_ON_IGNITION + 0.005 * books.chance.normal()
  begin(books)
  for (let day = 1; day <= DAYS; day += 1) {
    books.day = `${String(7 * day)} May`
    workDay(books, { day, routine, lossOnIgnition })
  }
  books.day = '31 May'
  if (routine.countsAtTheEnd) countAll(books)
  const { description, origins } = monthBalance(books.book())
  return {
    description,
    trueDryGrams: books.trueDryGrams,
    ownUncertaintyGrams: new Map(
      [...origins].flatMap(([id, { weighing, dryFraction }]) =>
        weighing === null
          ? []
          : [[id, dryFraction * weighing.standardUncertaintyGrams.toNumber()] as const],
      ),
    ),
  }
}

interface WorkDay {
  readonly day: number
  readonly routine: Routine
  readonly lossOnIgnition: number
}

function begin(books: SimulatedBooks): void {
  const { chance } = books
  books.has('store', 'store', {
    dryGrams: chance.between(150e3, 200e3),
    share: 0.795,
    unsure: 0.012,
  })
  books.has('scrap bin', 'scrap', { dryGrams: chance.between(4e3, 9e3), share: 0.9, unsure: 0.02 })
  books.has('slops', 'scrap', { dryGrams: chance.between(2e3, 4e3), share: 0.38, unsure: 0.03 })
  books.has('pile', 'scrap', { dryGrams: chance.between(1e3, 3e3), share: 0.77, unsure: 0.02 })
  books.has('basin', 'basin', { dryGrams: chance.between(9e3, 15e3), share: 0.55, unsure: 0.03 })
  books.has('reclaimed', 'bench', { dryGrams: chance.between(3e3, 9e3), share: 0.78, unsure: 0.02 })
}

function workDay(books: SimulatedBooks, work: WorkDay): void {
  const { chance } = books
  const { day, routine } = work
  const bench = `bags of day ${String(day)}`
  books.has(bench, 'bench')
  books.opensBags('store', bench, { dryGrams: chance.between(28_000, 31_000), bags: 3 })
  books.writes('open_bag')
  for (let run = 1; run <= RUNS_A_DAY; run += 1) {
    makeRun(books, { ...work, bench, run: `run ${String(day)}.${String(run)}` })
  }
  reclaim(books, day)
  if (routine.weighsBuckets !== 'daily') return
  for (const bucket of ['scrap bin', 'slops', 'pile'] as const) weighBucket(books, work, bucket)
}

const SHARE_OF_BUCKET = { 'scrap bin': 0.95, slops: 0.4, pile: THROWN } as const

/** Where the studio weighs a bucket whole each time that something goes in. */
function weighIfEachTime(
  books: SimulatedBooks,
  work: WorkDay,
  bucket: keyof typeof SHARE_OF_BUCKET,
): void {
  if (work.routine.weighsBuckets === 'each_time') weighBucket(books, work, bucket)
}

/** What is told of the water by one sample, where the studio takes one for all. */
function sampleOf({ routine, day }: WorkDay, what: string): Partial<Looks> {
  return routine.samples === 'a_day' ? { sample: `${what} of ${String(day)}` } : {}
}

function weighBucket(
  books: SimulatedBooks,
  work: WorkDay,
  bucket: keyof typeof SHARE_OF_BUCKET,
): void {
  const sample = sampleOf(work, bucket === 'pile' ? 'thrown' : bucket)
  const isSlops = bucket === 'slops' ? { waterUncertainty: OF_SLOPS } : {}
  books.weighsWhole(bucket, measured('scrap', { ...sample, ...isSlops }), SHARE_OF_BUCKET[bucket])
  books.writes('weigh_scrap')
}

function makeRun(books: SimulatedBooks, made: WorkDay & { bench: string; run: string }): void {
  const { bench, run, routine, lossOnIgnition } = made
  const { chance } = books
  const pieces = chance.whole(8, 12)
  const thrown = pieces * chance.between(350, 900)
  books.has(run, 'greenware')
  books.ofRun(run, run)
  books.moves(bench, run, { dryGrams: thrown, looks: { of: 'clay_taken' } })
  books.writes('throw', { fromLotIds: [bench] })
  books.loses(run, thrown * chance.between(0, 0.004))
  const [thrownSample, turnedSample] = [sampleOf(made, 'thrown'), sampleOf(made, run)]
  const collapsed = measured('lost_pieces', thrownSample)
  books.moves(run, 'pile', { dryGrams: thrown / pieces, share: THROWN, looks: collapsed })
  books.writes('lose', { stage: 'wheel' })
  weighIfEachTime(books, made, 'pile')
  books.moves(run, 'slops', {
    ...{ dryGrams: thrown * chance.between(0.02, 0.05), share: 0.2 },
    looks: measured('slops', { ...sampleOf(made, 'fresh slops'), waterUncertainty: OF_SLOPS }),
  })
  books.writes('collect_slops', { state: 'slops' })
  weighIfEachTime(books, made, 'slops')
  if (['thrown_and_after', 'all'].includes(routine.weighsPots)) {
    weighPots(books, run, { share: THROWN, sample: thrownSample })
  }
  const leather = { share: LEATHER, sample: turnedSample }
  if (routine.weighsPots === 'all') weighPots(books, run, leather)
  const turnings = thrown * chance.between(0.08, 0.2)
  books.moves(run, 'scrap bin', {
    dryGrams: turnings,
    share: LEATHER,
    looks: measured('turnings', turnedSample),
  })
  books.writes('turn')
  weighIfEachTime(books, made, 'scrap bin')
  books.loses(run, turnings * chance.between(0, 0.04))
  if (routine.weighsPots !== 'no') weighPots(books, run, leather)
  const fired = `${run}, fired`
  books.has(fired, 'bisque')
  books.ofRun(fired, run)
  books.fires(run, fired, lossOnIgnition)
  books.writes('bisque')
}

function weighPots(
  books: SimulatedBooks,
  run: string,
  { share, sample }: { share: number; sample: Partial<Looks> },
): void {
  books.weighsWhole(run, measured('pots', sample), share)
  books.writes('weigh_run')
}

function reclaim(books: SimulatedBooks, day: number): void {
  const { chance } = books
  const slaked = 0.4 * books.trueDry('scrap bin')
  books.moves('scrap bin', 'basin', { dryGrams: slaked, looks: { of: 'slaked', purpose: 'scrap' } })
  books.writes('slake', { estimates: [] })
  const slab = `slab of day ${String(day)}`
  books.has(slab, 'plaster')
  const poured = chance.between(3_000, 4_000)
  books.moves('basin', slab, { dryGrams: poured, share: 0.37, looks: measured('load') })
  books.writes('pour')
  books.loses(slab, chance.between(0, 20))
  books.moves(slab, 'reclaimed', { dryGrams: books.trueDry(slab), share: 0.774 })
  books.writes('lift')
}

function countAll(books: SimulatedBooks): void {
  for (let day = 1; day <= DAYS; day += 1) count(books, `bags of day ${String(day)}`, 0.795)
  count(books, 'reclaimed', 0.776)
  count(books, 'store', 0.795)
  count(books, 'pile', THROWN)
  count(books, 'scrap bin', 0.97)
  count(books, 'slops', 0.42)
  books.weighsWhole(
    'basin',
    measured('basin', { method: 'slurry_density', waterUncertainty: 0.01 }),
    0.55,
  )
  books.writes('read_slurry')
}

function count(books: SimulatedBooks, id: string, share: number): void {
  books.weighsWhole(id, measured('counted'), share)
  books.writes('count')
}
