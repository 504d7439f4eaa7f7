import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { kg } from '../support/studio.ts'
import type { Fields } from './page-forms.ts'
import { onTwoBats, openPlasterPages, type PlasterPages } from './plaster-pages.ts'

let expectSame: PlasterPages['expectSame']
let plaster: PlasterPages['plaster']
let pottery: PlasterPages['pottery']
let scrapInBucket: PlasterPages['scrapInBucket']
beforeEach(async () => {
  ;({ expectSame, plaster, pottery, scrapInBucket } = await openPlasterPages())
})
afterEach(() => pottery.close())

describe('a press records what the act would', () => {
  test('pour, onto several bats in one go, net or with the bat', async () => {
    const { landed } = await expectSame({
      path: '/plaster/pour',
      fields: onTwoBats,
      act: 'pour',
      said: {
        basinVesselId: 'basin-1',
        loads: [
          { batId: 'b', reading: { net: kg('6.00') }, thicknessMillimetres: '36' },
          { batId: 'c', reading: { gross: kg('12.80'), tare: kg('7.30') } },
        ],
      },
      next: '/plaster',
    })
    expect(landed.text).toContain('Poured on plaster: 11.50 kg net')
    expect(landed.text).toContain('Slab on Bat c'.slice('Slab on '.length))
  })

  test('slake', async () => {
    await scrapInBucket('turnings', '3.00')
    await expectSame({
      path: '/plaster/slake',
      fields: { fromVesselId: 'bucket-1', basinVesselId: 'basin-1', water: '2.5', waterUnit: 'kg' },
      act: 'slake',
      said: {
        fromVesselId: 'bucket-1',
        basinVesselId: 'basin-1',
        water: { net: kg('2.5') },
      },
      next: '/plaster',
    })
  })

  test('slake of a part', async () => {
    await scrapInBucket('turnings', '3.00')
    await expectSame({
      path: '/plaster/slake',
      fields: { fromVesselId: 'bucket-1', basinVesselId: 'basin-1', scrap: '800', scrapUnit: 'g' },
      act: 'slake',
      said: {
        fromVesselId: 'bucket-1',
        basinVesselId: 'basin-1',
        scrap: { net: { value: '800', unit: 'g' } },
      },
      next: '/plaster',
    })
  })

  test('decant', async () => {
    await expectSame({
      path: '/plaster/decant',
      fields: {
        ...{ basinVesselId: 'basin-1', gross: '3.4', grossUnit: 'kg' },
        ...{ grossTare: '0.4', grossTareUnit: 'kg', clarity: 'cloudy', intoVesselId: 'bucket-2' },
      },
      act: 'decant',
      said: {
        basinVesselId: 'basin-1',
        reading: { gross: kg('3.4'), tare: kg('0.4') },
        clarity: 'cloudy',
        intoVesselId: 'bucket-2',
      },
      next: '/plaster',
    })
  })

  test('read a slurry, by its jug, and with the whole basin', async () => {
    const fields = {
      ...{ basinVesselId: 'basin-1', volume: '1000', volumeUnit: 'ml' },
      ...{ slurry: '1630', slurryUnit: 'g' },
    }
    const said = {
      basinVesselId: 'basin-1',
      slurry: { net: { value: '1630', unit: 'g' } },
      volume: { value: '1000', unit: 'ml' },
    }
    const { landed } = await expectSame({
      path: '/plaster/slurry',
      fields,
      act: 'read-slurry',
      said,
      next: '/plaster/pour',
    })
    expect(landed.text).toContain('>Pour on plaster</h1>')
    await expectSame({
      path: '/plaster/slurry',
      fields: { ...fields, whole: '398.4', wholeUnit: 'kg', wholeWithBasin: 'yes', celsius: '18' },
      act: 'read-slurry',
      said: { ...said, celsius: '18', whole: { gross: kg('398.4'), inVesselId: 'basin-1' } },
      next: '/plaster/pour',
    })
  })

  test('lift, with the bat and the scrapings, onto a heap of its own or another', async () => {
    await plaster.pour('l', 'b')
    await plaster.pour('m', 'c')
    await expectSame({
      path: '/plaster/l/lift',
      fields: {
        ...{ gross: '4.87', grossUnit: 'kg', bat: '7.9', batUnit: 'kg', intoLotId: '' },
        ...{ scrapings: '40', scrapingsUnit: 'g', label: 'Reclaimed in May' },
      },
      act: 'lift',
      said: {
        lotId: 'l',
        reading: { net: kg('4.87') },
        bat: { net: kg('7.9') },
        scrapings: { reading: { net: { value: '40', unit: 'g' } } },
        label: 'Reclaimed in May',
      },
      next: '/plaster',
    })
    const { body } = await pottery.ask('GET', '/v1/lots?kind=reclaimed')
    const [heap] = body['items'] as { lotId: string }[]
    await expectSame({
      path: '/plaster/m/lift',
      fields: { intoLotId: heap?.lotId ?? '', label: 'not said where it joins' },
      act: 'lift',
      said: { lotId: 'm', intoLotId: heap?.lotId },
      next: '/plaster',
    })
  })

  test('move', async () => {
    await plaster.pour('l')
    const fields = { batId: 'c', gross: '5.05', grossUnit: 'kg', bat: '7.87', batUnit: 'kg' }
    await expectSame({
      path: '/plaster/l/move',
      fields,
      act: 'move-load',
      said: { lotId: 'l', batId: 'c', reading: { net: kg('5.05') }, bat: { net: kg('7.87') } },
      next: '/plaster',
    })
  })

  test('wet hard clay, and wedge', async () => {
    await pottery.does('receive-delivery', {
      clays: [{ bodyId: 'buff', lotId: 'd1', bags: 4, bagMass: kg('12.5'), price: '60.00' }],
    })
    await pottery.does('open-bag', { lotId: 'd1', bags: 1, newLotId: 'o1' })
    await pottery.does('open-bag', { lotId: 'd1', bags: 1, newLotId: 'o2' })
    await scrapInBucket('off_cuts', '1.20')
    await expectSame({
      path: '/plaster/rewet',
      fields: { clay: 'store/d1', water: '450', waterUnit: 'g' },
      act: 'rewet',
      said: { lotId: 'd1', place: 'store', water: { value: '450', unit: 'g' } },
      next: '/plaster',
    })
    const fields: Fields = [
      ...[
        ['lots-offered', 'o1'],
        ['lots', 'o1'],
        ['lots-offered', 'o2'],
      ],
      ...[
        ['lots', 'o2'],
        ['lots-o2', '3.5'],
        ['lots-o2Unit', 'kg'],
        ['vessels', 'bucket-1'],
      ],
      ...[
        ['gross', '17.4'],
        ['grossUnit', 'kg'],
        ['water', '200'],
        ['waterUnit', 'g'],
      ],
      ...[
        ['powderName', 'grog, fine'],
        ['powder', '250'],
        ['powderUnit', 'g'],
      ],
      ...[
        ['powderPrice', '1.40'],
        ['label', 'Wedged with grog'],
        ['seen', 'yes'],
      ],
    ] as [string, string][]
    await expectSame({
      path: '/plaster/wedge',
      fields,
      act: 'wedge',
      said: {
        from: [
          { lotId: 'o1', whatIsLeft: true },
          { lotId: 'o2', reading: { net: kg('3.5') } },
        ],
        fromVesselIds: ['bucket-1'],
        additions: [
          { name: 'grog, fine', reading: { net: { value: '250', unit: 'g' } }, price: '1.40' },
        ],
        water: { value: '200', unit: 'g' },
        reading: { net: kg('17.4') },
        label: 'Wedged with grog',
      },
      next: '/wheel/throw',
    })
  })
})
