import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { glazePottery } from './glaze-pages.ts'
import { faultsIn, pageAt, pressed, sameAs, send, valueIn } from './page-acts.ts'
import { openPottery, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await glazePottery(pottery)
})
afterAll(() => pottery.close())

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
