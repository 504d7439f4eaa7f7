import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { CostSteps, placedSteps } from '../../api/pages/drawings/cost-steps.tsx'
import { DryingCurve, type CurveAsked } from '../../api/pages/drawings/drying-curve.tsx'
import { CURVE, placedCurve } from '../../api/pages/drawings/drying-places.ts'
import { linesOfWords } from '../../api/pages/drawings/plot.ts'
import { placedValues, SingleValues } from '../../api/pages/drawings/single-values.tsx'
import { placedStages, YieldBars, type PlacedStage } from '../../api/pages/drawings/yield-bars.tsx'
import { present } from '../../shared/assert.ts'
import { decimal, ZERO } from '../../shared/decimal.ts'

const WIDTH = 360
const text = async (made: unknown) => String(await (made as Promise<unknown>))

function expectStrict(svg: string): void {
  expect(svg).toContain('role="img"')
  expect(svg).toMatch(/<title [^>]*>[^<]+<\/title><desc [^>]*>[^<]+<\/desc>/)
  expect(svg).not.toMatch(/ style=|<script|NaN|Infinity|undefined/)
}

describe('the steps of a cost', () => {
  const money = fc
    .integer({ min: -3_000_000, max: 9_000_000 })
    .map((one) => decimal(one).dividedBy(1e6))
  const stepOf = (amount: typeof ZERO) => ({ words: 'clay', amount, says: amount.toFixed(2) })
  const totalOf = (amounts: readonly (typeof ZERO)[]) =>
    amounts.reduce((sum, amount) => sum.plus(amount), ZERO)

  test('are to one scale, each beginning where the one before it ended', () => {
    fc.assert(
      fc.property(fc.array(money, { minLength: 1, maxLength: 12 }), (amounts) => {
        const total = stepOf(totalOf(amounts))
        const { steps, height } = placedSteps(amounts.map(stepOf), total)
        const widest = steps.find(({ amount }) => amount.abs().greaterThan('0.01'))
        const scale = (widest?.width ?? 0) / (widest?.amount.abs().toNumber() ?? 1)
        steps.forEach(({ amount, width, x, endX, y, barY }, index) => {
          if (widest !== undefined) {
            expect(width).toBeCloseTo(amount.abs().toNumber() * scale, 6)
          }
          const next = steps[index + 1]
          expect(x).toBeGreaterThanOrEqual(0)
          expect(x + width).toBeLessThanOrEqual(WIDTH)
          expect(barY).toBeGreaterThan(y)
          expect(barY).toBeLessThan(height)
          if (next === undefined) return
          expect(next.y).toBeGreaterThan(barY)
          expect([next.x, next.x + next.width].some((end) => Math.abs(end - endX) < 1e-6)).toBe(
            true,
          )
        })
      }),
    )
  })

  test('are told in words where nothing was sold, and drawn strictly where something was', async () => {
    const none = await text(<CostSteps id="c" title="A mug" steps={[]} total={null} />)
    expect(none).toContain('Nothing of it was sold')
    const steps = [stepOf(decimal('0.64')), stepOf(decimal('-0.05'))]
    const svg = await text(
      <CostSteps id="c" title="A mug" steps={steps} total={stepOf(decimal('0.59'))} />,
    )
    expectStrict(svg)
    expect(svg).toContain('0.59')
  })
})

/** What of a stage is drawn, all of it being known. */
function drawnStage(stage: PlacedStage | undefined) {
  const { share, width, whisker } = present(stage, 'the stage is placed')
  const { from, to } = present(whisker ?? undefined, 'with its interval')
  return {
    share: present(share ?? undefined, 'its share'),
    width: present(width ?? undefined, 'and its bar'),
    from,
    to,
  }
}

describe('the yield of stages', () => {
  const stage = (share: number | null) => ({
    ...{ words: 'Bisque', says: 'so many', share },
    interval: share === null ? null : { from: share / 2, to: (1 + share) / 2 },
  })

  test('is to scale from none to all, with its interval round it', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1 }),
        (shares) => {
          const placed = placedStages(shares.map(stage))
          const full = drawnStage(placedStages([stage(1)])[0]).width
          placed.forEach((one, index) => {
            const { share, width, from, to } = drawnStage(one)
            expect(width).toBeCloseTo(share * full, 6)
            expect(from - 6).toBeLessThanOrEqual(width + 1e-9)
            expect(to - 6).toBeGreaterThanOrEqual(width - 1e-9)
            expect(to).toBeLessThanOrEqual(WIDTH)
            expect(one.y).toBeGreaterThan(placed[index - 1]?.y ?? 0)
          })
        },
      ),
    )
  })

  test('is words where nothing came through yet, and leaves out the bar of a stage unknown', async () => {
    const none = await text(<YieldBars id="y" title="Mugs" stages={[stage(null)]} />)
    expect(none).not.toContain('<svg')
    const some = await text(<YieldBars id="y" title="Mugs" stages={[stage(0.9), stage(null)]} />)
    expectStrict(some)
    expect(some.match(/class="band clay"/g)).toHaveLength(1)
  })
})

describe('single values', () => {
  const values = (shares: readonly number[]) =>
    shares.map((share, index) => ({ words: `run ${index}`, share, isSignal: index === 1 }))
  const shareWords = (share: number) => `${(share * 100).toFixed(1)} %`
  const limits = { centre: 0.2, lower: 0.15, upper: 0.25 }

  test('stand in their order, to one scale with their limits, inside the frame', () => {
    const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 2 })
    fc.assert(
      fc.property(shares, (all) => {
        const { points, lines } = placedValues(values(all), limits)
        const [upper, centre, lower] = lines
        const slope = ((lower?.y ?? 0) - (upper?.y ?? 0)) / (limits.upper - limits.lower)
        expect(slope).toBeGreaterThan(0)
        expect(centre?.y).toBeCloseTo((upper?.y ?? 0) + slope * (limits.upper - limits.centre), 6)
        points.forEach(({ x, y, share }, index) => {
          expect(y).toBeCloseTo((upper?.y ?? 0) + slope * (limits.upper - share), 6)
          expect(x).toBeGreaterThan(points[index - 1]?.x ?? 0)
          expect(x).toBeLessThan(WIDTH)
          expect(y).toBeGreaterThanOrEqual(0)
          expect(y).toBeLessThanOrEqual(210)
        })
        const words = lines.map(({ wordsY }) => wordsY)
        expect((words[1] ?? 0) - (words[0] ?? 0)).toBeGreaterThanOrEqual(26)
        expect((words[2] ?? 0) - (words[1] ?? 0)).toBeGreaterThanOrEqual(26)
      }),
    )
  })

  test('are words where there are none or one; a signal is told by its shape', async () => {
    const asked = { id: 's', title: 'Plates', limits: null, shareWords }
    expect(await text(<SingleValues {...asked} values={[]} />)).toContain('No run was turned yet')
    expect(await text(<SingleValues {...asked} values={values([0.2])} />)).toContain(
      'One run so far: run 0, 20.0 % turned off',
    )
    const alike = await text(<SingleValues {...asked} values={values([0.2, 0.2])} />)
    expectStrict(alike)
    const svg = await text(
      <SingleValues {...asked} limits={limits} values={values([0.2, 0.3, 0.2])} />,
    )
    expectStrict(svg)
    expect(svg.match(/class="stands-out"/g)).toHaveLength(1)
    expect(svg.match(/class="value"/g)).toHaveLength(2)
  })
})

describe('a drying curve', () => {
  const HOUR = 3_600_000
  const at = (hours: number) => new Date(Date.parse('2026-05-14T08:00:00Z') + hours * HOUR)
  const curve = Array.from({ length: 13 }, (_, index) => {
    const median = 0.4 * Math.exp(-index / 14) + 0.02
    return { at: at(index * 2), median, from: median - 0.01, to: median + 0.01 }
  })
  const asked: CurveAsked = {
    id: 'd',
    title: 'Window bat',
    why: null,
    waterWords: (share) => `${(share * 100).toFixed(0)} %`,
    curve,
    weighIns: [{ at: at(6), water: 0.28, giveOrTake: 0.005 }],
    targets: [
      { name: 'ready', words: 'ready', share: 0.225, says: 'Thu 20:10', at: at(9.4) },
      { name: 'too-dry', words: 'too dry', share: 0.2, says: null, at: null },
    ],
    now: at(7),
    beganWords: '14 May 2026, 08:00',
  }

  test('runs to the right and downwards within its band and its frame', () => {
    const { band, middle, weighIns, targets, now, hourTicks, waterTicks } = placedCurve(asked)
    const { frame } = CURVE
    middle.forEach(({ x, y }, index) => {
      expect(x).toBeGreaterThan(middle[index - 1]?.x ?? 0)
      expect(y).toBeGreaterThan(middle[index - 1]?.y ?? 0)
      expect(y).toBeLessThan(band[index]?.low ?? 0)
      expect(y).toBeGreaterThan(band[index]?.high ?? Infinity)
      expect(x).toBeLessThanOrEqual(frame.right)
    })
    const hours = (frame.right - frame.left) / 24
    expect(weighIns[0]?.x).toBeCloseTo(frame.left + 6 * hours, 6)
    expect(now).toBeCloseTo(frame.left + 7 * hours, 6)
    expect(targets[0]?.x).toBeCloseTo(frame.left + 9.4 * hours, 6)
    expect(targets[1]?.x).toBeNull()
    for (const { y } of [...weighIns, ...targets, ...waterTicks]) {
      expect(y).toBeGreaterThanOrEqual(frame.top)
      expect(y).toBeLessThanOrEqual(frame.bottom)
    }
    for (const { x } of hourTicks) expect(x).toBeLessThanOrEqual(frame.right)
  })

  test('is words where there is none, and strict where there is', async () => {
    const why = 'Nobody knows how wet it began here. Lift it and weigh it alone.'
    expect(await text(<DryingCurve {...asked} curve={[]} why={why} />)).toContain(why)
    expect(await text(<DryingCurve {...asked} curve={[]} weighIns={[]} />)).toContain(
      'no curve to draw',
    )
    const svg = await text(<DryingCurve {...asked} />)
    expectStrict(svg)
    expect(svg).toContain('ready Thu 20:10')
    expectStrict(await text(<DryingCurve {...asked} weighIns={[]} targets={[]} now={null} />))
  })
})

test('words are broken between words, and no line is longer than it may be', () => {
  expect(linesOfWords('clay at the price of the bag', 12)).toEqual([
    'clay at the',
    'price of the',
    'bag',
  ])
  expect(linesOfWords('unbreakable', 4)).toEqual(['unbreakable'])
})
