import { describe, expect, test } from 'vitest'
import {
  ALL_CLAY,
  ALL_LAYERS,
  clayOf,
  COST_LAYERS,
  costIn,
  costOfLayer,
  LAYER_WORDS,
  layersNegated,
  layersOfSum,
  layersRead,
  layersWritten,
  shareOutLayers,
  type LayeredCost,
} from '../../shared/cost-layer.ts'
import { decimal } from '../../shared/decimal.ts'
import { countedPart, materialByShare, partByShare } from '../../shared/parting.ts'
import { isNothing, NOTHING, quantities } from '../../shared/quantity.ts'

const written = ({ cost, costLayers }: LayeredCost) => [cost.toFixed(), layersWritten(costLayers)]

/** Four glazed mugs: 2.00 of clay, 0.80 of glaze and 1.20 of fire. */
const MUGS = quantities({
  ...{ dryGrams: decimal(1200), materialGrams: decimal(120), pieces: decimal(4) },
  cost: decimal('4.00'),
  costLayers: layersRead({ glaze: '0.8', fire: '1.2' }),
})

describe('what a cost is for', () => {
  test('is clay where nothing else claims it', () => {
    expect(clayOf(MUGS).toFixed()).toBe('2')
    expect(ALL_LAYERS.map((layer) => costIn(MUGS, layer).toFixed())).toEqual([
      '2',
      '0.8',
      '1.2',
      '0',
      '0',
    ])
    expect(clayOf({ cost: decimal(5), costLayers: ALL_CLAY }).toFixed()).toBe('5')
  })

  test('has words for each, and clay comes first', () => {
    expect(ALL_LAYERS).toEqual(['clay', ...COST_LAYERS])
    expect(Object.keys(LAYER_WORDS)).toEqual([...ALL_LAYERS])
  })

  test('of nothing is no layer at all', () => {
    expect(costOfLayer('fire', decimal(0)).costLayers.size).toBe(0)
    expect(written(costOfLayer('fire', decimal('0.5')))).toEqual(['0.5', { fire: '0.5' }])
    expect(layersRead(null).size).toBe(0)
  })

  test('sums by layer, and what cancels is gone', () => {
    const glaze = layersRead({ glaze: '0.5', wear: '1' })
    const sum = layersOfSum([glaze, layersRead({ glaze: '-0.5', fire: '2' })])
    expect(layersWritten(sum)).toEqual({ wear: '1', fire: '2' })
    expect(layersOfSum([glaze, layersNegated(glaze)]).size).toBe(0)
  })
})

describe('a mug of four', () => {
  test('takes a quarter of each layer and of the glaze that is on it', () => {
    const one = partByShare(MUGS, { dryGrams: decimal(300), pieces: decimal(1) })
    expect(written(one)).toEqual(['1', { glaze: '0.2', fire: '0.3' }])
    expect(one.materialGrams.toFixed()).toBe('30')
  })

  test('of three that cannot be parted evenly costs the sum of its rounded layers', () => {
    const one = partByShare(MUGS, { dryGrams: decimal(400) })
    expect(written(one)).toEqual(['1.333334', { glaze: '0.266667', fire: '0.4' }])
  })

  test('that breaks leaves each layer of its cost to the others', () => {
    const lost = { cost: decimal('1'), costLayers: layersRead({ glaze: '0.2', fire: '0.3' }) }
    const shares = shareOutLayers(lost, [decimal(1), decimal(1), decimal(1)])
    expect(shares.map(written)).toEqual([
      ['0.333334', { glaze: '0.066667', fire: '0.1' }],
      ['0.333334', { glaze: '0.066667', fire: '0.1' }],
      ['0.333332', { glaze: '0.066666', fire: '0.1' }],
    ])
  })
})

describe('on the shelf', () => {
  const POWDER = quantities({
    ...{ materialGrams: decimal(900), waterGrams: decimal(100) },
    ...costOfLayer('glaze', decimal(9)),
  })
  const BOXES = quantities({ pieces: decimal(7), ...costOfLayer('packaging', decimal(10)) })

  test('a third of a powder takes a third of its water and of its cost', () => {
    const third = materialByShare(POWDER, { dryGrams: decimal(300) })
    expect(written(third)).toEqual(['3', { glaze: '3' }])
    expect([third.materialGrams, third.waterGrams, third.dryGrams].map(String)).toEqual([
      ...['300', '33.333333', '0'],
    ])
  })

  test('two boxes of seven cost two sevenths, the last takes what is left', () => {
    expect(written(countedPart(BOXES, decimal(2)))).toEqual(['2.857143', { packaging: '2.857143' }])
    expect(written(countedPart(BOXES, decimal(7)))).toEqual(['10', { packaging: '10' }])
    expect(countedPart(BOXES, decimal(2)).pieces.toFixed()).toBe('2')
  })

  test('no more leaves than is there', () => {
    expect(() => materialByShare(POWDER, { dryGrams: decimal('900.000001') })).toThrow()
    expect(() => countedPart(BOXES, decimal(8))).toThrow()
  })

  test('a layer that is left is something, though all amounts are nothing', () => {
    expect(isNothing(NOTHING)).toBe(true)
    expect(isNothing(quantities({ costLayers: layersRead({ fire: '1' }) }))).toBe(false)
    expect(isNothing(quantities({ materialGrams: decimal(1) }))).toBe(false)
  })
})
