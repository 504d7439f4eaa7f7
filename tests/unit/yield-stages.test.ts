import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { doubtRead } from '../../shared/doubt.ts'
import type { ActKind } from '../../shared/month-world.ts'
import { NOTHING, quantities } from '../../shared/quantity.ts'
import type { PotFlows, RunMovement } from '../../shared/run-flows.ts'
import type { Grade, PotPlace } from '../../shared/place.ts'
import { massByPart } from '../../shared/yield-mass.ts'
import { STAGE_PARTS, stagesOf, type Stage } from '../../shared/yield-stages.ts'
import { sum } from './arbitrary.ts'

type Move = readonly [ActKind, PotPlace, Decimal, (Grade | undefined)?]

function pots(moves: readonly Move[], joined: { taken: Decimal; offCuts: Decimal }): PotFlows {
  return {
    movements: moves.map(([kind, place, dryGrams, grade]): RunMovement => ({
      ...{ kind, place, grade },
      ...quantities({ dryGrams }),
    })),
    joining: {
      taken: { ...NOTHING, dryGrams: joined.taken },
      offCuts: { ...NOTHING, dryGrams: joined.offCuts },
    },
    losses: [],
  }
}

const micro = fc
  .integer({ min: 0, max: 2_000_000_000 })
  .map((units) => decimal(units).dividedBy(1_000_000))

/** What can befall pots, each by some mass; whether it leaves as much as it takes is no matter here. */
const anyPots = fc.array(micro, { minLength: 27, maxLength: 27 }).map((grams) => {
  let next = 0
  const some = () => grams[next++] ?? ZERO
  const goes = (kind: ActKind, [from, to]: [PotPlace, PotPlace], grade?: Grade): Move[] => {
    const left = some()
    return [
      [kind, from, left.negated()],
      [kind, to, left.minus(some()), grade],
    ]
  }
  const [taken, offCuts] = [some(), some()]
  const moves: Move[] = [
    ['throw', 'greenware', some()],
    ['join', 'greenware', taken.minus(offCuts)],
    ['open_books', 'bisque', some()],
    ['open_books', 'finished', some(), 'second'],
    ['turn', 'greenware', some().negated()],
    ['collect_slops', 'greenware', some().negated()],
    ['lose', 'greenware', some().negated()],
    ['weigh_run', 'greenware', some().negated()],
    ...goes('bisque', ['greenware', 'bisque']),
    ['lose', 'bisque', some().negated()],
    ['count', 'bisque', some()],
    ...goes('glaze_fire', ['bisque', 'glazed']),
    ['lose', 'glazed', some().negated()],
    ...goes('grade', ['glazed', 'finished'], 'first'),
    ['sell', 'finished', some().negated(), 'first'],
    ['give_away', 'finished', some().negated(), 'second'],
    ['break_in_shop', 'finished', some().negated(), 'first'],
    ['lose', 'finished', some().negated(), 'first'],
    ['count', 'finished', some().negated(), 'first'],
  ]
  return pots(moves, { taken, offCuts })
})

const partsOf = ({ mass }: Stage) =>
  STAGE_PARTS.filter((part) => part !== 'came').map((p) => mass[p])

describe('the clay of a stage', () => {
  test('is what came, to the last digit, whatever befell the pots', () => {
    fc.assert(
      fc.property(anyPots, (run) => {
        for (const stage of stagesOf(run)) {
          const { came } = stage.mass
          expect(sum(partsOf(stage).map((one) => one.dryGrams)).toFixed()).toBe(
            came.dryGrams.toFixed(),
          )
          if (came.fractionOfBegun === null) continue
          const fractions = partsOf(stage).map((one) => one.fractionOfBegun ?? ZERO)
          expect(sum(fractions).toFixed()).toBe(came.fractionOfBegun.toFixed())
        }
      }),
    )
  })

  test('comes from the stage before, and over all stages to where the clay went', () => {
    fc.assert(
      fc.property(anyPots, (run) => {
        const [making, bisque, , shop] = stagesOf(run)
        const opened = (place: PotPlace) =>
          sum(
            run.movements
              .filter((one) => one.kind === 'open_books' && one.place === place)
              .map((one) => one.dryGrams),
          )
        expect(bisque?.mass.came.dryGrams.toFixed()).toBe(
          making?.mass.passed.dryGrams.plus(opened('bisque')).toFixed(),
        )
        const over = (part: 'lossOnIgnition' | 'unexplained' | 'waiting') =>
          sum(
            stagesOf(run)
              .slice(0, 4)
              .map((one) => one.mass[part].dryGrams),
          ).toFixed()
        const whole = massByPart(run)
        for (const part of ['lossOnIgnition', 'unexplained', 'waiting'] as const) {
          expect(over(part)).toBe(whole[part].dryGrams.toFixed())
        }
        const { sold, givenAway, kept } = whole
        expect(shop?.mass.passed.dryGrams.toFixed()).toBe(
          sum([sold.dryGrams, givenAway.dryGrams, kept.dryGrams]).toFixed(),
        )
      }),
    )
  })

  test('has no fraction where nothing was begun with', () => {
    const [making] = stagesOf(pots([], { taken: ZERO, offCuts: ZERO }))
    const nothing = { fractionOfBegun: null, fractionUncertainty: null }
    expect(making?.mass.came).toMatchObject({ dryGrams: ZERO, ...nothing })
  })

  test('is a share of all that the pots were begun with, and so of no more than one', () => {
    const run = pots(
      [
        ['throw', 'greenware', decimal(800)],
        ['open_books', 'greenware', decimal(100)],
        ['join', 'greenware', decimal(60)],
        ['open_books', 'bisque', decimal(40)],
      ],
      { taken: decimal(60), offCuts: ZERO },
    )
    const shares = stagesOf(run).map(({ stage, mass }) => [
      stage,
      mass.came.fractionOfBegun?.toFixed(),
    ])
    expect(Object.fromEntries(shares)).toMatchObject({ making: '0.96', bisque: '0.04', whole: '1' })
  })
})

describe('how sure the clay of a stage is', () => {
  /** A thousand grams, unsure by 20 and by a scale, of which a weigh-in missed some, unsure by 15. */
  const missing = (grams: number): PotFlows => {
    const move = (kind: ActKind, dryGrams: number, doubt: Record<string, string>): RunMovement => ({
      ...{ kind, place: 'greenware', grade: undefined },
      ...quantities({ dryGrams: decimal(dryGrams), dryDoubt: doubtRead(doubt) }),
    })
    return {
      movements: [
        move('throw', 1000, { 'said|wedged': '20' }),
        move('weigh_run', -grams, { 'reading|w': '-15' }),
      ],
      joining: { taken: NOTHING, offCuts: NOTHING },
      losses: [],
    }
  }

  test('says of what is unexplained whether it may as well be none', () => {
    const { unexplained } = massByPart(missing(20))
    // 20 g less and more 1.96 x 15 g.
    expect(unexplained.dryInterval95.from.toFixed()).toBe('-9.4')
    expect(unexplained.dryInterval95.to.toFixed()).toBe('49.4')
    expect(unexplained.isDistinguishableFromZero).toBe(false)
    expect(massByPart(missing(40)).unexplained.isDistinguishableFromZero).toBe(true)
    const [making] = stagesOf(missing(40))
    expect(making?.mass.unexplained).toMatchObject({
      isDistinguishableFromZero: true,
      dryInterval95: { from: decimal('10.6'), to: decimal('69.4') },
    })
  })

  test('gives each share its interval, in which what both are unsure by has cancelled', () => {
    const { thrown, unexplained } = massByPart(missing(40))
    expect(thrown.fractionInterval95?.from.toFixed()).toBe('1')
    expect(thrown.fractionInterval95?.to.toFixed()).toBe('1')
    // 0.04: by 15 g in a thousand, and by 0.04 x 20 in a thousand.
    const half = 1.96 * Math.hypot(0.015, 0.0008)
    expect(unexplained.fractionInterval95?.from.toNumber()).toBeCloseTo(0.04 - half, 5)
    expect(unexplained.fractionInterval95?.to.toNumber()).toBeCloseTo(0.04 + half, 5)
    const none = massByPart(pots([], { taken: ZERO, offCuts: ZERO }))
    expect([none.sold.fractionInterval95, none.unexplained.isDistinguishableFromZero]).toEqual([
      null,
      false,
    ])
  })
})
