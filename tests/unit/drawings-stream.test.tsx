import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { ribbonOutline, turnBack } from '../../api/pages/drawings/ribbon.ts'
import { placed } from '../../api/pages/drawings/stream-grid.ts'
import { streamPicture, type StreamPicture } from '../../api/pages/drawings/stream-layout.ts'
import { LOOP, SPINE, type StreamDrawn } from '../../api/pages/drawings/stream-parts.ts'
import { figureOf, Stream } from '../../api/pages/drawings/stream.tsx'
import { decimal, ZERO, type Decimal } from '../../shared/decimal.ts'
import { CLAY_PLACES } from '../../shared/place.ts'

const WIDTH = 360
const KILOGRAMS = { words: 'kg', grams: decimal(1000) }

/** Ways that clay goes, common ones and such as a reversal in a later month makes. */
const WAYS: readonly (readonly [string, string])[] = [
  ...SPINE.slice(1).map((to, index) => [SPINE[index] ?? '', to] as const),
  ...LOOP.slice(1).map((to, index) => [LOOP[index] ?? '', to] as const),
  ['bought', 'store'],
  ['powders_added', 'bench'],
  ['unexplained', 'scrap'],
  ['sold', 'finished'],
  ['finished', 'sold'],
  ['finished', 'kept'],
  ['finished', 'given_away'],
  ['greenware', 'fired'],
  ['glazed', 'lost_after_bisque'],
  ['store', 'unexplained'],
  ['plaster', 'discarded'],
  ['bench', 'scrap'],
  ['greenware', 'scrap'],
  ['scrap', 'bench'],
  ['plaster', 'bench'],
  ['bench', 'basin'],
  ['bisque', 'greenware'],
  ['basin', 'scrap'],
]
const isInside = (end: string) => (CLAY_PLACES as readonly string[]).includes(end)

const milligrams = fc
  .integer({ min: 1, max: 300_000_000 })
  .map((one) => decimal(one).dividedBy(1000))
const sum = (all: readonly (Decimal | string)[]) =>
  all.reduce<Decimal>((total, one) => total.plus(one), ZERO)

/** A month that adds up: what a place lacks to give was there before, the rest stays. */
const months = fc
  .tuple(
    fc.uniqueArray(fc.tuple(fc.constantFrom(...WAYS), milligrams), {
      selector: ([[from, to]]) => `${from}>${to}`,
      minLength: 1,
    }),
    fc.dictionary(fc.constantFrom(...CLAY_PLACES), milligrams),
  )
  .map(([ways, stays]): StreamDrawn => {
    const bands = ways.map(([[from, to], grams]) => ({
      ...{ from, to, dryGrams: grams.toFixed(), kinds: [] },
      ...{ isFromOutside: !isInside(from), isToOutside: !isInside(to) },
    }))
    const stocks = CLAY_PLACES.map((place) => {
      const came = sum(bands.filter(({ to }) => to === place).map((band) => band.dryGrams))
      const went = sum(bands.filter(({ from }) => from === place).map((band) => band.dryGrams))
      const least = came.greaterThan(went) ? came.minus(went) : ZERO
      const closing = least.plus(stays[place] ?? ZERO)
      const opening = closing.plus(went).minus(came)
      return {
        place,
        openingDryGrams: opening.toFixed(),
        closingDryGrams: closing.toFixed(),
      }
    })
    return { bands, stocks }
  })

const drawn = (stream: StreamDrawn) => {
  const picture = streamPicture(stream, WIDTH)
  if (picture === null) throw new Error('there is something to draw')
  return picture
}

function eachNumber({ nodes, ribbons, labels, height }: StreamPicture): number[] {
  return [
    height,
    ...nodes.flatMap(({ x, y, width }) => [x, y, width]),
    ...ribbons.flatMap(({ centre }) => centre.flatMap(({ x, y }) => [x, y])),
    ...labels.flatMap(({ x, y, leadsToX }) => [x, y, leadsToX ?? 0]),
  ]
}

describe('the stream of a month', () => {
  test('has one scale for all bands, to the last digit', () => {
    fc.assert(
      fc.property(months, (month) => {
        const { ribbons, scale } = drawn(month)
        expect(scale.greaterThan(0)).toBe(true)
        for (const { part, width } of ribbons) {
          expect(width.toFixed()).toBe(part.dryGrams.times(scale).toFixed())
        }
        const drawnGrams = sum(ribbons.map(({ part }) => part.dryGrams))
        const told = [
          ...month.bands.map((band) => band.dryGrams),
          ...month.stocks.flatMap((one) => [one.openingDryGrams, one.closingDryGrams]),
        ]
        expect(drawnGrams.toFixed()).toBe(sum(told).toFixed())
      }),
    )
  })

  test('brings into each place as much as leaves it, side by side along its whole bar', () => {
    fc.assert(
      fc.property(months, (month) => {
        const { nodes, scale } = drawn(month)
        for (const node of nodes) {
          for (const slots of [node.ins, node.outs]) {
            let reached = node.x
            for (const slot of slots) {
              const at = placed(slot, node, scale)
              expect(at.x).toBeCloseTo(reached, 6)
              reached = at.x + slot.part.dryGrams.times(scale).toNumber()
            }
            expect(reached).toBeCloseTo(node.x + node.width, 6)
          }
          const [came, went] = [node.ins, node.outs].map((slots) =>
            sum(slots.map(({ part }) => part.dryGrams)).toFixed(),
          )
          expect(came).toBe(went)
        }
      }),
    )
  })

  test('stays on the paper, and has a place for everything', () => {
    fc.assert(
      fc.property(months, (month) => {
        const picture = drawn(month)
        expect(eachNumber(picture).every(Number.isFinite)).toBe(true)
        for (const { centre, width } of picture.ribbons) {
          for (const { x, y } of ribbonOutline(centre, width.toNumber())) {
            expect(x).toBeGreaterThanOrEqual(0)
            expect(x).toBeLessThanOrEqual(WIDTH)
            expect(y).toBeGreaterThanOrEqual(0)
            expect(y).toBeLessThanOrEqual(picture.height + 0.01)
          }
        }
        expect(picture.nodes.map(({ place }) => place)).toEqual([...SPINE, ...LOOP])
        const down = picture.nodes.slice(0, SPINE.length).map(({ y }) => y)
        expect(down).toEqual([...down].sort((one, other) => one - other))
        const up = picture.nodes.slice(SPINE.length).map(({ y }) => y)
        expect(up).toEqual([...up].sort((one, other) => other - one))
      }),
    )
  })

  test('sets no words over others', () => {
    fc.assert(
      fc.property(months, (month) => {
        for (const anchor of ['start', 'end'] as const) {
          const heights = drawn(month)
            .labels.filter((label) => label.anchor === anchor)
            .map(({ y }) => y)
            .sort((one, other) => one - other)
          heights.slice(1).forEach((y, index) => {
            expect(y - (heights[index] ?? 0)).toBeGreaterThanOrEqual(12)
          })
        }
      }),
    )
  })

  test('draws a month in which one thing happened, and says so where nothing is there', async () => {
    const still = CLAY_PLACES.map((place) => ({
      ...{ place, openingDryGrams: '0', closingDryGrams: '0' },
    }))
    expect(streamPicture({ stocks: still, bands: [] }, WIDTH)).toBeNull()
    const none = await drawing({ stocks: still, bands: [] })
    expect(none).not.toContain('<svg')
    expect(none).toContain('nothing to draw')
    const only = still.map((one) =>
      one.place === 'store' ? { ...one, openingDryGrams: '8000', closingDryGrams: '8000' } : one,
    )
    const one = await drawing({ stocks: only, bands: [] })
    expect(one).toContain('opening 8.00')
    expect(one).not.toMatch(/NaN|Infinity|undefined/)
  })

  test('says its scale, and holds nothing that a strict page forbids', async () => {
    await fc.assert(
      fc.asyncProperty(months, async (month) => {
        const svg = await drawing(month)
        expect(svg).toMatch(/as wide as [\d.]+ kg/)
        expect(svg).not.toMatch(/ style=|<script|NaN|undefined|onclick/)
        expect(svg).toContain('role="img"')
        expect(svg).toMatch(/<title id="clay-title">[^<]+<\/title><desc id="clay-desc">/)
      }),
      { numRuns: 20 },
    )
  })
})

async function drawing(stream: StreamDrawn): Promise<string> {
  const made = <Stream id="clay" title="The clay of May" stream={stream} unit={KILOGRAMS} />
  return String(await made)
}

describe('a band', () => {
  test('is as wide all along as it is said to be', () => {
    const centre = turnBack({ x: 0, y: 0 }, { x: 60, y: 0 }, { runY: 50, radius: 12 })
    const outline = ribbonOutline(centre, 8)
    const ends = [outline[0], outline.at(-1)].map((point) => point?.x ?? 0)
    expect(Math.abs((ends[0] ?? 0) - (ends[1] ?? 0))).toBeCloseTo(8, 1)
    const deepest = Math.max(...outline.map(({ y }) => y))
    expect(deepest).toBeCloseTo(54, 1)
  })
})

test('figures beside bands have three digits', () => {
  const shown = ['158269.4', '47641', '9900.5', '9997', '111.5', '0'].map((grams) =>
    figureOf(decimal(grams), KILOGRAMS),
  )
  expect(shown).toEqual(['158', '47.6', '9.90', '10.0', '0.11', '0.00'])
})
