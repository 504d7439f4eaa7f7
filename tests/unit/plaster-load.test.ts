import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { BROAD_DRYING_PRIOR, studioDryingFrom } from '../../shared/drying-prior.ts'
import { batOfLoad, restingBat, waterWentOf } from '../../shared/plaster-bat.ts'
import {
  beginningOf,
  gramsAsItIsNow,
  momentAfter,
  pastLoadOf,
  weighInsOf,
  type LoadHistory,
  type PlasterReading,
} from '../../shared/plaster-history.ts'
import { loadFigures } from '../../shared/plaster-load.ts'
import { plasterTarget } from '../../shared/plaster-target.ts'

const LAID_AT = new Date('2026-05-14T10:20:00Z')

const read = (hours: number, grams: number, entryId = `at-${String(hours)}`): PlasterReading => ({
  entryId,
  at: momentAfter(LAID_AT, hours),
  grams: decimal(grams),
  standardUncertaintyGrams: decimal('2.886751'),
})

/** The slab on bat B of the worked day. */
const history = (more: Partial<LoadHistory> = {}): LoadHistory => ({
  batId: 'b',
  batDryGrams: decimal(7100),
  laidAt: LAID_AT,
  laid: read(0, 6000),
  dryGrams: decimal('3771.78'),
  dryUncertaintyGrams: decimal(24),
  thicknessMillimetres: decimal(36),
  slabs: [],
  pairs: [],
  bats: [],
  turnedAt: [],
  partings: [],
  endedAt: undefined,
  target: plasterTarget({
    readyWaterContentWetBasis: undefined,
    tooDryWaterContentWetBasis: undefined,
  }),
  ...more,
})
const figures = (more: Partial<LoadHistory>, hours: number) =>
  loadFigures(history(more), { prior: BROAD_DRYING_PRIOR, now: momentAfter(LAID_AT, hours) })

describe('where a curve begins', () => {
  test('is as it was laid, or else the first weigh-in, or nowhere', () => {
    const slabs = [read(2, 5500), read(4, 5200)]
    const laid = beginningOf(history({ slabs }))
    expect(laid?.load.pouredGrams.value).toBe(6000)
    const moved = history({ slabs, laid: undefined })
    const first = beginningOf(moved)
    expect(first?.load.pouredGrams.value).toBe(5500)
    if (first === undefined) throw new Error('it begins')
    expect(weighInsOf(moved, first)).toEqual([
      { hours: 2, slabGrams: 5200, standardUncertaintyGrams: 2.886751 },
    ])
    expect(pastLoadOf(history({ laid: undefined }))).toBeUndefined()
    expect(beginningOf(history({ slabs, dryGrams: decimal(0) }))).toBeUndefined()
  })

  test('counts what was weighed as what is left of it', () => {
    const parting = (entryId: string) => ({
      entryId,
      at: momentAfter(LAID_AT, 3),
      keptFraction: decimal('0.75'),
    })
    const weighed = (hours: number, entryId: string) =>
      gramsAsItIsNow({ partings: [parting('thrown')] }, read(hours, 4000, entryId)).toFixed()
    expect(weighed(1, 'before')).toBe('3000')
    expect(weighed(3, 'same-time')).toBe('3000')
    expect(weighed(3, 'thrown')).toBe('4000')
    expect(weighed(4, 'after')).toBe('4000')
  })
})

describe('what a bat holds', () => {
  const slabs = [read(6.7, 5050)]

  test('is what it weighs alone, before anything else', () => {
    const { standing, thirst } = batOfLoad(
      history({ slabs, pairs: [read(6.7, 12_920)], bats: [read(6.7, 7880)] }),
      decimal(5050),
    )
    expect([standing, thirst?.holdsGrams.toFixed()]).toEqual(['weighed_alone', '780'])
  })

  test('is the pair less a slab that was weighed at about the same time', () => {
    const near = batOfLoad(history({ slabs, pairs: [read(6.4, 12_920)] }), decimal(5050))
    expect([near.standing, near.nowGrams?.toFixed()]).toEqual(['pair_less_slab', '7870'])
    const far = batOfLoad(history({ slabs, pairs: [read(5, 12_950)] }), decimal(5050))
    expect(far.standing).toBe('at_most')
  })

  test('is at most what the slab lost, or not known', () => {
    expect(batOfLoad(history(), decimal(5050)).thirst?.holdsGrams.toFixed()).toBe('950')
    const most = batOfLoad(history(), decimal(5050)).thirst
    expect(most?.drinksStillGramsMin.toFixed()).toBe('0')
    expect(most?.drinksStillGramsMax.toFixed()).toBe('1065')
    expect(batOfLoad(history(), undefined).standing).toBe('not_known')
    expect(batOfLoad(history({ batDryGrams: undefined }), decimal(5050)).words).toContain('dry')
  })

  test('is at most so much more as the slab has lost since', () => {
    const later = batOfLoad(history({ slabs, bats: [read(6.7, 7870)] }), decimal(4900))
    expect([later.standing, later.nowGrams?.toFixed()]).toEqual(['at_most', '8020'])
    expect(later.words).toContain(
      'held 770 g; since then the slab has lost 150 g more, which went into the bat or the air.',
    )
    // Sated at 1065 g, and it holds what it held at least; at 355 g, and it holds more than that.
    expect(later.thirst?.drinksStillGramsMax.toFixed()).toBe('295')
    expect(later.thirst?.drinksStillGramsMin.toFixed()).toBe('0')
    const soon = batOfLoad(history({ slabs, bats: [read(6.7, 7870)] }), decimal(5000))
    expect(soon.standing).toBe('weighed_alone')
  })

  test('is nothing where it weighs a hair less than dry, and a doubt where it weighs much less', () => {
    const weighing = (grams: number) => batOfLoad(history({ bats: [read(1, grams)] }), undefined)
    expect(weighing(7095).thirst?.holdsGrams.toFixed()).toBe('0')
    const chipped = weighing(7000)
    expect(chipped.thirst).toBeUndefined()
    expect(chipped.words).toContain('chipped')
    const since = batOfLoad(history({ slabs, bats: [read(6.7, 7000)] }), decimal(4900))
    expect([since.standing, since.thirst]).toEqual(['weighed_alone', undefined])
    expect(since.words).toContain('chipped')
  })

  test('went there from the slab, unless the readings forbid it', () => {
    const went = (grams: number) => waterWentOf(history({ slabs, bats: [read(6.7, grams)] }))
    expect(went(7870)?.evaporatedGrams.toFixed()).toBe('180')
    expect(went(8300)).toBeUndefined()
    // A hair below its dry mass it has drunk nothing; far below it nobody knows.
    expect(went(7095)?.drunkGrams.toFixed()).toBe('0')
    expect(went(7000)).toBeUndefined()
  })

  test('is told of an empty bat where it was weighed, and only then', () => {
    const endedAt = momentAfter(LAID_AT, 8)
    const dry = decimal(7100)
    const weighed = restingBat([history({ slabs, endedAt, bats: [read(8, 7800)] })], dry)
    expect(weighed.figures.thirst?.holdsGrams.toFixed()).toBe('700')
    expect(weighed.emptySince).toEqual(endedAt)
    const not = restingBat([history({ slabs, endedAt })], dry)
    expect(not.figures.thirst).toBeUndefined()
    expect(not.figures.words).toContain('at most 950 g')
    expect(restingBat([], dry).emptySince).toBeUndefined()
  })
})

describe('what to do', () => {
  test('is to weigh where only a forecast says that it is ready', () => {
    const past = [5380, 5330, 5420, 5360].map((grams) => ({
      ...pastOf([read(4, grams), read(8.5, 4870)]),
    }))
    const prior = studioDryingFrom(past).anyBat
    const at = (hours: number, slabs: PlasterReading[] = []) =>
      loadFigures(history({ slabs }), { prior, now: momentAfter(LAID_AT, hours) }).advice
    expect(at(9)?.act).toBe('weigh')
    expect(at(9)?.words).toContain('should be ready by now')
    expect(at(12)?.words).toContain('may be too dry already')
    expect(at(40)?.act).toBe('lift_and_wet')
    expect(at(8.5, [read(8.5, 4860)])?.act).toBe('lift')
  })

  test('is nothing once the slab has left its bat', () => {
    const ended = figures({ slabs: [read(6, 5050)], endedAt: momentAfter(LAID_AT, 6) }, 100)
    expect(ended.advice).toBeUndefined()
    expect(ended.hoursSinceLaid).toBe(6)
  })
})

describe('a pair', () => {
  test('tells nothing where the bat’s dry mass is not known, or clay was taken off', () => {
    const pairs = [read(6, 12_920)]
    const unknown = figures({ pairs, batDryGrams: undefined }, 7).pairs[0]
    expect(unknown?.evaporatedGrams).toBeUndefined()
    expect(unknown?.words).toContain('dry mass')
    const parting = { entryId: 'p', at: momentAfter(LAID_AT, 3), keptFraction: decimal('0.5') }
    expect(figures({ pairs, partings: [parting] }, 7).pairs[0]?.words).toContain('taken off')
  })

  test('that is heavier than at first is said to be of something else', () => {
    expect(figures({ pairs: [read(6, 13_500)] }, 7).pairs[0]?.words).toContain('something else')
  })
})

test('a slab below its dry clay is told in words, and no curve is drawn', () => {
  const { weighIns, drying } = figures({ slabs: [read(20, 3500)] }, 21)
  expect(weighIns[0]?.waterContentWetBasis).toBeUndefined()
  expect(weighIns[0]?.words).toContain('cannot weigh 3500 g')
  expect(drying).toMatchObject({ isKnown: false, whyNot: 'readings_contradict' })
})

function pastOf(slabs: PlasterReading[]) {
  const past = pastLoadOf(history({ slabs }))
  if (past === undefined) throw new Error('it has a beginning')
  return past
}
