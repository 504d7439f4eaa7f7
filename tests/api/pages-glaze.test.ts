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

describe('mixing', () => {
  const LIST = '/glaze/weigh-out/ash-white'

  test('asks how much, and leads to what to weigh out', async () => {
    const none = await pageAt(pottery, '/glaze/mix/ash-white?asked=yes')
    expect([none.status, faultsIn(none).length]).toEqual([422, 1])
    const odd = await pageAt(pottery, '/glaze/mix/ash-white?asked=yes&volume=-2&volumeUnit=l')
    expect([odd.status, valueIn(odd.text, 'volume')]).toEqual([422, '-2'])
    const thin = await pageAt(pottery, '/glaze/mix/ash-white?asked=yes&volume=2&density=0.9')
    expect(faultsIn(thin).join()).toContain('href="#density"')
    const query = 'asked=yes&volume=2&volumeUnit=l'
    const ok = await pageAt(pottery, `/glaze/mix/ash-white?${query}`)
    expect([ok.status, ok.headers.get('location')]).toEqual([303, `${LIST}?${query}`])
    const bare = await pageAt(pottery, LIST)
    expect([bare.status, bare.headers.get('location')]).toEqual([303, '/glaze/mix/ash-white'])
    expect((await pageAt(pottery, '/glaze/mix/flint')).status).toBe(404)
  })

  test('what the bucket has already need not be mixed', async () => {
    const query = 'asked=yes&runIds=mugs&vesselId=bucket-3'
    const enough = await pageAt(pottery, `/glaze/mix/ash-white?${query}`)
    expect(enough.status).toBe(422)
    expect(faultsIn(enough).join()).toContain('is enough for these')
  })

  test('shows the hazards before the list, and the list before the press', async () => {
    const { text } = await pageAt(pottery, `${LIST}?dryGrams=1000`)
    const at = (words: string) => text.indexOf(words)
    expect(at('as stated')).toBeGreaterThan(0)
    expect(at('as stated')).toBeLessThan(at('Weigh out</h2>'))
    expect(at('Weigh out</h2>')).toBeLessThan(at('It is mixed'))
    expect(text).toContain('700')
    expect(text).toContain('300')
    expect(valueIn(text, 'dryGrams')).toBe('1000')
    expect(valueIn(text, 'water')).toMatch(/^\d{3,4}$/)
  })

  test('is recorded as listed', async () => {
    const before = await pottery.entries()
    const nowhere = await send(pottery, LIST, { dryGrams: '1000', key: 'k' })
    expect(faultsIn(nowhere).join()).toContain('href="#vesselId"')
    expect(await pottery.entries()).toBe(before)
    const { entry, entryId, to } = await pressed(pottery, LIST, {
      ...{ dryGrams: '1000', versionNo: '1', density: '1.45' },
      ...{ vesselId: 'bucket-3', water: '980', waterUnit: 'g' },
    })
    expect(to).toBe('/glaze/bucket/bucket-3')
    const said = { glazeId: 'ash-white', vesselId: 'bucket-3', versionNo: 1 }
    await sameAs(pottery, entry, {
      act: 'mix-glaze',
      said: { ...said, dryGrams: '1000', water: { value: '980', unit: 'g' } },
    })
    const { text } = await pageAt(pottery, `/books/trail/entry/${entryId}`)
    expect(text).toContain(
      'Glaze mixed: 1.00 kg dry with 980 g of water, now in Ash white (bucket-3).',
    )
  })

  test('a powder that was weighed otherwise is told so, the others as listed', async () => {
    const { entry } = await pressed(pottery, LIST, {
      ...{ dryGrams: '1000', versionNo: '1', vesselId: 'bucket-3' },
      ...{ 'was-flint': '310', 'was-flintUnit': 'g' },
    })
    const grams = (value: string) => ({ net: { value, unit: 'g' } })
    await sameAs(pottery, entry, {
      act: 'mix-glaze',
      said: {
        ...{ glazeId: 'ash-white', vesselId: 'bucket-3', versionNo: 1 },
        ingredients: [
          { ingredientId: 'feldspar', reading: grams('700') },
          { ingredientId: 'flint', reading: grams('310') },
        ],
      },
    })
  })

  test('more than the shelf has is refused, and said where', async () => {
    const much = { dryGrams: '900000', versionNo: '1', vesselId: 'bucket-3' }
    const answer = await send(pottery, LIST, { ...much, key: 'k', seen: 'yes' })
    expect(answer.status).toBe(409)
    expect(faultsIn(answer).join()).toContain('href="#weigh-out"')
  })
})

describe('a recipe', () => {
  const RECIPE = '/glaze/recipe/ash-white'

  test('shows parts, sums, cost and hazards, and judges no glaze', async () => {
    const { text } = await pageAt(pottery, RECIPE)
    expect(text).toContain('70.0 %')
    expect(text).toContain('The base comes to 100')
    expect(text).toContain('A kilogram dry')
    expect(text).toContain('Flint (H372) holds silica, as stated.')
    expect(text).toContain('Nothing here')
    expect((await pageAt(pottery, '/glaze/recipe/flint')).status).toBe(422)
  })

  test('a new version is begun from the last, and faults stand at their powders', async () => {
    const { text } = await pageAt(pottery, `${RECIPE}/new`)
    expect([valueIn(text, 'parts-feldspar'), valueIn(text, 'parts-flint')]).toEqual(['70', '30'])
    const after = valueIn(text, 'after') ?? ''
    const none = await send(pottery, `${RECIPE}/new`, { key: 'k', after })
    expect(none.status).toBe(422)
    const odd = { key: 'k', after, 'parts-feldspar': '70', 'parts-flint': '0.00000001' }
    const fine = await send(pottery, `${RECIPE}/new`, odd)
    expect([fine.status, faultsIn(fine).join()]).toEqual([
      422,
      expect.stringContaining('href="#parts-flint"'),
    ])
    const fields = { 'parts-feldspar': '65', 'parts-flint': '35', 'parts-cobalt': '1,5' }
    const said = { ...fields, additions: 'cobalt', note: 'Blue', key: 'k', after }
    const ok = await send(pottery, `${RECIPE}/new`, said)
    expect([ok.status, ok.headers.get('location')]).toEqual([303, `${RECIPE}?entered=yes`])
    const again = await send(pottery, `${RECIPE}/new`, said)
    expect([again.status, valueIn(again.text, 'parts-cobalt')]).toEqual([422, '1,5'])
    const page = await pageAt(pottery, RECIPE)
    expect(page.text).toContain('Version 2')
    expect(page.text).toContain('Added on top: 1.5')
    expect(page.text).toContain('What it was before')
    expect(page.text).toContain('No price: Cobalt is not on the shelf')
    const { body } = await pottery.ask('GET', '/v1/materials/ash-white/recipes')
    const [latest] = body['items'] as { parts: { ingredientId: string; isAddition: boolean }[] }[]
    expect(latest?.parts.map((part) => [part.ingredientId, part.isAddition])).toEqual([
      ['feldspar', false],
      ['flint', false],
      ['cobalt', true],
    ])
  })
})
