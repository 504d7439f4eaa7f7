import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { entryOf, flow, openGround, verdict } from './by-hand.ts'
import type { Ground } from './by-hand.ts'

let ground: Ground

beforeAll(async () => {
  ground = await openGround()
})
afterAll(() => ground.close())

describe.each(['owner', 'app'] as const)('what a cost is for, by the hand of the %s:', (writer) => {
  const tried = (statements: string) => verdict(ground[writer], statements)

  test.each(['0.0000001', '0.10', '01', '1e3', '-0', '.5', 'NaN', 'much'])(
    'a layer of a cost of %s is no plain number',
    async (glaze) => {
      const lines = [
        { to: 'supplier', cost: '1', glaze },
        { to: 'tap', cost: '-1' },
      ]
      expect(await tried(entryOf({ id: 'tried', lines }))).toBe('line_must_fit_scale')
    },
  )

  test('a layer of a cost is one that is known, and clay is what is left', async () => {
    for (const layer of ['clay', 'labour', 'Glaze', '']) {
      const odd = flow('supplier to tap', { cost: '1', glaze: '1' }).replaceAll(
        '"glaze"',
        `"${layer}"`,
      )
      expect(await tried(odd)).toBe('line_must_fit_scale')
    }
    for (const layers of ['[]', '1', '"glaze"', 'null', '{"glaze": 1}']) {
      const odd = flow('supplier to tap', { cost: '1', glaze: '1' }).replace(
        '{"glaze":"1"}',
        layers,
      )
      expect(await tried(odd)).not.toBe('went through')
    }
  })

  test('keeps no cost where no glaze and no box is left', async () => {
    const ofGlaze = { material: '300', water: '300', cost: '5.999999', glaze: '5.999999' }
    expect(await tried(flow('glaze to tap', ofGlaze))).toBe('holding_must_not_strand_cost')
    const ofBoxes = { pieces: '40', cost: '19.999999', packaging: '19.999999' }
    expect(await tried(flow('boxes to tap', ofBoxes))).toBe('holding_must_not_strand_cost')
  })

  test('glaze does not stay where its pots have gone', async () => {
    const id = `pots-${writer}`
    const pots = { dry: '10', pieces: '2', cost: '4', material: '1', glaze: '1' }
    expect(await tried(flow('supplier to empty', pots, id))).toBe('went through')
    const without = { dry: '10', pieces: '2', cost: '4', glaze: '1' }
    expect(await tried(flow('empty to tap', without))).toBe('glaze_must_be_on_something')
    const away = flow('empty to tap', pots, `${id}-gone`)
    expect(await tried(away)).toBe('went through')
  })

  test('no layer is more than the cost that it is a part of', async () => {
    const alike = { cost: '3', glaze: '3.000001' }
    expect(await tried(flow('supplier to empty', { dry: '1', ...alike }))).toBe(
      'holding_must_not_go_negative',
    )
    const together = { dry: '1', cost: '3', glaze: '2', fire: '1.000001' }
    expect(await tried(flow('supplier to empty', together))).toBe('holding_must_not_go_negative')
    // What the shelf keeps of its cost, once the clay of a bench has been paid from it, is below nothing.
    expect(await tried(flow('shelf to bench', { cost: '1' }))).toBe('holding_must_not_go_negative')
  })

  test.each(['shelf', 'boxes', 'glaze'])('no clay and no money for clay is in %s', async (to) => {
    expect(await tried(flow(`supplier to ${to}`, { dry: '1' }))).toBe('material_must_not_be_clay')
    expect(await tried(flow(`supplier to ${to}`, { cost: '1' }))).toBe('material_must_not_be_clay')
  })

  test('boxes are counted without any clay, pots are not', async () => {
    const boxes = { pieces: '1', cost: '0.5', packaging: '0.5' }
    expect(await tried(flow('supplier to boxes', boxes, `box-${writer}`))).toBe('went through')
    expect(await tried(flow('boxes to supplier', boxes, `unbox-${writer}`))).toBe('went through')
    expect(await tried(flow('supplier to empty', { pieces: '1' }))).toBe('pieces_must_have_clay')
  })
})
