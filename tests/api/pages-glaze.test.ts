import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { glazePottery } from './glaze-pages.ts'
import { faultsIn, pageAt, pressed, sameAs, send, sendKept, twin, valueIn } from './page-acts.ts'
import { chosen } from './page-forms.ts'
import { openPottery, type Pottery } from './pottery.ts'

const JUG = { slurry: { net: { value: '1450', unit: 'g' } }, volume: { value: '1000', unit: 'ml' } }
const DIP = '/glaze/dip/bucket-3'
const USUAL = { all: 'mugs', how: 'usual' }

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await glazePottery(pottery)
})
afterAll(() => pottery.close())

describe('the board', () => {
  test('says what is in each bucket, for how many it is enough, and what waits', async () => {
    const { text } = await pageAt(pottery, '/glaze')
    expect(text).toContain('Ash white')
    expect(text).toMatch(/9\.00\d* kg ±/)
    expect(text).toMatch(/Enough for about \d+ × Mug/)
    expect(text).toContain('Waiting to be glazed')
    expect(text).toContain('for a laboratory and local law to say')
    expect(text.match(/<h1[ >]/g)).toHaveLength(1)
    const bucket = await pageAt(pottery, '/glaze/bucket/bucket-3')
    for (const room of ['dip', 'read', 'water', 'lose']) {
      expect(bucket.text).toContain(`href="/glaze/${room}/bucket-3"`)
    }
    expect((await pageAt(pottery, '/glaze/bucket/bucket-1')).status).toBe(404)
  })
})

describe('glazing pots', () => {
  test('offers what is bisque, and as usual where the form is known', async () => {
    const { text } = await pageAt(pottery, DIP)
    expect(text).toContain('All 20')
    expect(text).toContain('All 6')
    expect(chosen(text, 'how', 'usual')).toBe(true)
    expect(text).toContain('Mug 38 g dry each')
  })

  test('none chosen, more than there are, and a form nobody knows come back with their fields', async () => {
    const before = await pottery.entries()
    const none = await send(pottery, DIP, { how: 'usual' })
    expect([none.status, faultsIn(none).join()]).toEqual([422, '<a href="#runs">Which pots?</a>'])
    const many = await send(pottery, DIP, { 'some-mugs': '21', how: 'usual', key: 'k' })
    expect(many.status).toBe(409)
    expect(faultsIn(many).join()).toContain('href="#some-mugs"')
    expect(valueIn(many.text, 'some-mugs')).toBe('21')
    const unknown = await send(pottery, DIP, { all: 'plates', how: 'usual', key: 'k' })
    expect([unknown.status, faultsIn(unknown).length]).toEqual([422, 1])
    const noJug = await send(pottery, DIP, { all: 'mugs', how: 'bucket', bucketAfter: '17' })
    expect(noJug.status).toBe(422)
    expect(faultsIn(noJug).join()).toContain('href="#afterJug"')
    expect(await pottery.entries()).toBe(before)
  })

  test('a preview says what would be on them, and records nothing', async () => {
    const before = await pottery.entries()
    const { status, text } = await send(pottery, DIP, { ...USUAL, preview: 'true' })
    expect(status).toBe(200)
    expect(text).not.toContain('<html')
    expect(text).not.toContain('class="not-yet"')
    expect(await pottery.entries()).toBe(before)
  })

  test('as usual, in few touches', async () => {
    const { entry, entryId, to } = await pressed(pottery, DIP, { ...USUAL, by: 'Ines' })
    expect(to).toBe('/glaze')
    const said = { glazeId: 'ash-white', vesselId: 'bucket-3', by: 'Ines' }
    await sameAs(pottery, entry, {
      act: 'glaze',
      said: { ...said, runs: [{ runId: 'mugs', pieces: 20 }], usual: true },
    })
    const shown = await pageAt(pottery, `/glaze?did=${entryId}`)
    expect(shown.text).toContain('Glazed: 20 mugs, 760 g of Ash white (bucket-3).')
    expect(shown.text).toContain('Glazed, waiting for the fire')
    const page = await pageAt(pottery, `/books/trail/entry/${entryId}`)
    expect(page.text).toContain('20 of mugs took')
    expect(page.text).toContain('as usual for the form')
    expect(page.text).toContain('Glaze, powder')
    expect(page.text).toContain('Cost: glaze.')
    expect(page.text).toContain('Cost: glaze.')
  })

  test('by the bucket after, as the API is told it', async () => {
    const weighed = { bucketAfter: '16.00', afterVolume: '1000', afterVolumeUnit: 'ml' }
    const { entry } = await pressed(pottery, DIP, {
      ...{ 'some-plates': '5', how: 'bucket', afterJug: '1450', afterJugUnit: 'g' },
      ...{ ...weighed, washedOff: '12' },
    })
    const reading = { gross: { value: '16.00', unit: 'kg' }, inVesselId: 'bucket-3' }
    await sameAs(pottery, entry, {
      act: 'glaze',
      said: {
        ...{ glazeId: 'ash-white', vesselId: 'bucket-3', runs: [{ runId: 'plates', pieces: 5 }] },
        bucket: { after: { reading, density: JUG }, washedOffDryGrams: '12' },
      },
    })
  })

  test('by the pots, out of the phone’s own queue', async () => {
    const fields = { 'some-plates': '1', how: 'pots', potsBefore: '1,20', potsAfter: '1,28' }
    const { status, body } = await sendKept(pottery, DIP, { key: 'q1', ...fields })
    expect(status, JSON.stringify(body)).toBe(201)
    const pots = {
      before: { net: { value: '1.20', unit: 'kg' } },
      after: { net: { value: '1.28', unit: 'kg' } },
    }
    await twin(pottery, 'glaze', {
      ...{
        glazeId: 'ash-white',
        vesselId: 'bucket-3',
        runs: [{ runId: 'plates', pieces: 1 }],
        pots,
      },
    })
  })
})

describe('a bucket', () => {
  const jug = {
    densityVolume: '1000',
    densityVolumeUnit: 'ml',
    densityJug: '1450',
    densityJugUnit: 'g',
  }

  test('is read by its weight and its density', async () => {
    const half = await send(pottery, '/glaze/read/bucket-3', { gross: '17', key: 'k' })
    expect([half.status, valueIn(half.text, 'gross')]).toEqual([422, '17'])
    const { entry, entryId, to } = await pressed(pottery, '/glaze/read/bucket-3', {
      ...{ gross: '17.00', ...jug },
    })
    expect(to).toBe('/glaze/bucket/bucket-3')
    const reading = { gross: { value: '17.00', unit: 'kg' }, inVesselId: 'bucket-3' }
    await sameAs(pottery, entry, {
      act: 'read-glaze',
      said: { vesselId: 'bucket-3', reading, density: JUG },
    })
    const { text } = await pageAt(pottery, `/books/trail/entry/${entryId}`)
    expect(text).toContain('Dry glaze')
    expect(text).not.toContain('Dry clay')
    expect((await pageAt(pottery, '/glaze')).text).toContain('1.45 g/ml')
  })

  test('gets water, or has it drawn off', async () => {
    const water = '/glaze/water/bucket-3'
    const none = await send(pottery, water, { way: 'in', key: 'k' })
    expect([none.status, faultsIn(none).length]).toEqual([422, 1])
    const into = { way: 'in', volume: '500', volumeUnit: 'ml', off: '3' }
    const { entry } = await pressed(pottery, water, into)
    await sameAs(pottery, entry, {
      act: 'water-glaze',
      said: { vesselId: 'bucket-3', waterVolume: { value: '500', unit: 'ml' } },
    })
    const off = { way: 'off', off: '300', offUnit: 'g', clarity: 'cloudy', volume: '2' }
    const drawn = await pressed(pottery, water, off)
    await sameAs(pottery, drawn.entry, {
      act: 'water-glaze',
      said: {
        vesselId: 'bucket-3',
        takenOff: { net: { value: '300', unit: 'g' } },
        clarity: 'cloudy',
      },
    })
  })

  test('loses glaze to the sieve', async () => {
    const lose = '/glaze/lose/bucket-3'
    expect((await pageAt(pottery, lose)).text).toContain('nor down the drain')
    const unsaid = await send(pottery, lose, { how: 'dry', dryGrams: '31', key: 'k' })
    expect(faultsIn(unsaid).join()).toContain('href="#why"')
    const { entry, entryId } = await pressed(pottery, lose, {
      ...{ why: 'sieve', how: 'dry', dryGrams: '31' },
    })
    await sameAs(pottery, entry, {
      act: 'lose-glaze',
      said: { vesselId: 'bucket-3', why: 'sieve', dryGrams: '31' },
    })
    const { text } = await pageAt(pottery, `/books/trail/entries?did=${entryId}`)
    expect(text).toContain('Glaze lost: 31 g of Ash white (bucket-3).')
  })
})
