import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { kg } from '../support/studio.ts'
import { chosen, type Fields } from './page-forms.ts'
import { onTwoBats, openPlasterPages, type PlasterPages } from './plaster-pages.ts'

let get: PlasterPages['get']
let plaster: PlasterPages['plaster']
let pottery: PlasterPages['pottery']
let press: PlasterPages['press']
let scrapInBucket: PlasterPages['scrapInBucket']
beforeEach(async () => {
  ;({ get, plaster, pottery, press, scrapInBucket } = await openPlasterPages())
})
afterEach(() => pottery.close())

describe('what is wrong comes back with what was typed', () => {
  test('a bat that was tapped and has no mass, at its own field', async () => {
    const { status, text } = await press('/plaster/pour', [
      ['basinVesselId', 'basin-1'],
      ...(['bat-a', 'b', 'c'].map((id) => ['bats-offered', id]) as [string, string][]),
      ['bats', 'b'],
      ['bats', 'c'],
      ['bats-c', '5.5'],
      ['bats-cUnit', 'kg'],
    ])
    expect(status).toBe(422)
    expect(text).toContain('<a href="#bats-b">')
    expect(text).toContain('id="bats-b-fault"')
    expect(text).toMatch(/name="bats-c" value="5.5"/)
    expect(chosen(text, 'bats', 'c')).toBe(true)
    expect(chosen(text, 'bats', 'bat-a')).toBe(false)
    expect(await pottery.entries()).toBe(1)
  })

  test('no bat at all', async () => {
    const { status, text } = await press('/plaster/pour', [
      ['basinVesselId', 'basin-1'],
      ['bats-offered', 'b'],
    ])
    expect(status).toBe(422)
    expect(text).toContain('<a href="#bats">')
    expect(chosen(text, 'bats', 'b')).toBe(false)
  })

  test('more than the basin has is refused at the mass of the bat', async () => {
    const { status, text } = await press('/plaster/pour', [
      ['basinVesselId', 'basin-1'],
      ['bats-offered', 'b'],
      ['bats', 'b'],
      ['bats-b', '900'],
      ['bats-bUnit', 'kg'],
    ])
    expect(status).toBe(409)
    expect(text).toContain('<a href="#bats-b">')
    expect(text).toMatch(/name="bats-b" value="900"/)
  })

  test('two clays that would meet ask what they become', async () => {
    const bucket = { vesselId: 'bucket-2', bodyId: 'white', state: 'slops' }
    await pottery.does('weigh-scrap', { ...bucket, reading: { net: kg('2.0') } })
    const fields = { fromVesselId: 'bucket-2', basinVesselId: 'basin-1', water: '1.5' }
    const { status, text } = await press('/plaster/slake', fields)
    expect(status).toBe(422)
    expect(chosen(text, 'fromVesselId', 'bucket-2')).toBe(true)
    expect(text).toMatch(/<details class="more" open="">\s*<summary>Two clays meet/)
    expect(text).toMatch(/name="water" value="1.5"/)
    const again = await press('/plaster/slake', { ...fields, blendBodyId: 'pepper' })
    expect(again.status).toBe(303)
  })

  test('a slab below its dry clay is refused at the scale', async () => {
    await plaster.pour('l')
    const { status, text } = await press('/plaster/l/lift', { gross: '0.9', grossUnit: 'kg' })
    expect(status).toBe(422)
    expect(text).toContain('<a href="#gross">')
    expect(text).toMatch(/name="gross" value="0.9"/)
  })

  test('a jug lighter than water is refused at the jug', async () => {
    const { status, text } = await press('/plaster/slurry', {
      ...{ basinVesselId: 'basin-1', volume: '1000', volumeUnit: 'ml' },
      ...{ slurry: '900', slurryUnit: 'g' },
    })
    expect(status).toBe(422)
    expect(text).toContain('<a href="#slurry">')
  })
})

describe('dust', () => {
  test('dry scrap has its caution before the press, and is slaked by that press', async () => {
    await scrapInBucket('air_dry', '3.00')
    const { text } = await get('/plaster/slake')
    expect(text).toContain('aria-label="Dust"')
    expect(text).toContain('name="seen" value="yes"')
  })

  test('what was dry and not shown yet is shown first, and recorded by the second press', async () => {
    await scrapInBucket('air_dry', '3.00')
    const fields = { key: 'slake-1', fromVesselId: 'bucket-1', basinVesselId: 'basin-1' }
    const before = await pottery.entries()
    const { status, text } = await press('/plaster/slake', fields)
    expect([status, await pottery.entries()]).toEqual([200, before])
    expect(text).toContain('Nothing is recorded yet.')
    expect(text).toContain('name="key" value="slake-1"')
    const again = await press('/plaster/slake', { ...fields, seen: 'yes' })
    expect([again.status, await pottery.entries()]).toEqual([303, before + 1])
  })
})

describe('two presses of one form', () => {
  test.each<[string, Fields]>([
    ['/plaster/pour', onTwoBats],
    ['/plaster/l/lift', { key: 'lift-1', gross: '4.87', grossUnit: 'kg', intoLotId: '' }],
    ['/plaster/l/move', { key: 'move-1', batId: 'bat-b', gross: '5.05', grossUnit: 'kg' }],
  ])('%s is one entry', async (path, fields) => {
    await plaster.pour('l', 'bat-a')
    const before = await pottery.entries()
    const first = await press(path, fields)
    const second = await press(path, fields)
    expect([first.status, second.status]).toEqual([303, 303])
    expect(second.headers.get('location')).toBe(first.headers.get('location'))
    expect(await pottery.entries()).toBe(before + 1)
    const kept = await press(path, fields, { Accept: 'application/json' })
    expect([kept.status, kept.headers.get('idempotency-replayed')]).toEqual([201, 'true'])
  })
})
