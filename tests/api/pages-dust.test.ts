import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { LIFE } from './life-of-clay.ts'
import { NEIGHBOUR, openPottery, STUDIO, type Body, type Pottery } from './pottery.ts'
import { g, kg, TEST_NOW } from '../support/studio.ts'

let pottery: Pottery
let clock = TEST_NOW
/** What each act answered: the cautions that stood before its press. */
const answered = new Map<string, string[]>()

const said = (cautions: unknown) => (cautions as { why: string }[]).map(({ why }) => why).sort()

async function does(act: string, content: object): Promise<Body> {
  const body = await pottery.does(act, content)
  answered.set((body['entry'] as { entryId: string }).entryId, said(body['cautions']))
  return body
}

const sample = { tin: g('10'), wetWithTin: g('110'), dryWithTin: g('108') }
const dry = { content: '0.03', basis: 'wet', standing: 'measured' } as const

/** Dusty work of every kind that there is, after a whole life of clay. */
beforeAll(async () => {
  pottery = await openPottery({ now: () => clock })
  for (const [act, content] of LIFE) await does(act, content)
  const white = { bodyId: 'white' }
  await does('weigh-scrap', {
    ...white,
    vesselId: 'bucket-3',
    state: 'air_dry',
    reading: { net: kg('3') },
    note: 'wetted first, at the open door',
  })
  await does('open-books', {
    items: [
      { what: 'clay', ...white, lotId: 'bone-dry', reading: { net: kg('2') }, water: dry },
      { what: 'clay', ...white, lotId: 'soft', reading: { net: kg('4') } },
      {
        what: 'pots',
        ...white,
        runId: 'w1',
        formId: 'mug',
        at: 'greenware',
        pieces: 4,
        reading: { net: kg('1.4') },
      },
      { what: 'pots', ...white, runId: 'w2', formId: 'mug', at: 'greenware', pieces: 4 },
    ],
  })
  await does('rewet', { lotId: 'bone-dry', place: 'bench', water: g('100') })
  await does('rewet', { lotId: 'soft', place: 'bench', water: g('100') })
  await does('wedge', {
    from: [{ lotId: 'soft', reading: { net: kg('1') } }],
    additions: [{ name: 'grog', reading: { net: g('100') } }],
    newLotId: 'grogged',
  })
  await does('lose', {
    runId: 'w1',
    pieces: 1,
    stage: 'drying',
    cause: 'cracked',
    vesselId: 'bucket-3',
  })
  await does('lose', {
    runId: 'w1',
    pieces: 1,
    stage: 'leather_hard',
    cause: 'dropped',
    vesselId: 'bucket-3',
  })
  await does('bisque', { runs: [{ runId: 'w1' }, { runId: 'w2' }] })
  await does('dry-test', { ...white, state: 'turnings', sample })
  await does('dry-test', { ...white, state: 'air_dry', sample })
})
afterAll(() => pottery.close())

const MONTH = '2026-06'
const dustOf = async (month = MONTH, studio = STUDIO) =>
  (await pottery.ask('GET', `/v1/reports/dust?month=${month}`, { studio })).body

interface Logged {
  readonly entryId: string
  readonly kind: string
  readonly note: string | null
  readonly isTakenBack: boolean
  readonly cautions: readonly { why: string; instead: string[] }[]
}
const logged = async () => (await dustOf())['entries'] as unknown as Logged[]

const page = (address: string, studio = STUDIO) =>
  pottery.ask('GET', address, {
    studio: null,
    headers: { accept: 'text/html', cookie: `studio=${studio}` },
  })

describe('the dust log', () => {
  test('holds every entry before which a caution stood, with that caution, and no other', async () => {
    const expected = [...answered].filter(([, whys]) => whys.length > 0)
    const found = (await logged()).map(
      ({ entryId, cautions }) => [entryId, said(cautions)] as const,
    )
    expect(expected.length).toBeGreaterThan(8)
    expect(new Map(found)).toEqual(new Map(expected))
  })

  test('tells dry work of each kind apart', async () => {
    const kinds = new Set((await logged()).map(({ kind }) => kind))
    for (const kind of ['open_books', 'rewet', 'wedge', 'lose', 'bisque', 'dry_test']) {
      expect([...kinds]).toContain(kind)
    }
    const whys = (await logged()).flatMap(({ cautions }) => cautions.map(({ why }) => why))
    expect(whys).toContain(
      'Dust rises from dry work (mixing powders), whatever the clay was before.',
    )
  })

  test('names the limits of the place with source and date, and judges no room', async () => {
    const body = await dustOf()
    const limits = body['limits'] as { jurisdiction: string; document: string; asOf: string }[]
    expect(limits.map(({ jurisdiction }) => jurisdiction)).toEqual(['GB'])
    expect(limits.every(({ document, asOf }) => document !== '' && asOf !== '')).toBe(true)
    expect(body['deferTo']).toContain('Local law and licensed practice come first')
    expect(JSON.stringify(body)).not.toMatch(/\bsafe\b(?! Work)/i)
  })

  test('of a month without any says so, and says nothing of the room', async () => {
    const body = await dustOf('2026-01')
    expect(body['entries']).toEqual([])
    expect(body['words']).toBe('No dusty work was written down in this month.')
    expect(body['saysNothingOf']).toContain('says nothing about the room')
  })

  test('keeps what was taken back, marked, and does not count it', async () => {
    const before = Number((await dustOf())['entriesThatStand'])
    const entry = (await logged()).find(({ kind }) => kind === 'wedge')
    await pottery.does('correct', { entryId: entry?.entryId })
    const after = await dustOf()
    expect(after['entriesThatStand']).toBe(before - 1)
    const found = (await logged()).find(({ entryId }) => entryId === entry?.entryId)
    expect(found?.isTakenBack).toBe(true)
  })

  test('reckons with the threshold that the clay had when it was written down', async () => {
    const before = (await logged()).map(({ entryId }) => entryId)
    clock = new Date(clock.getTime() + 60_000)
    const { status } = await pottery.ask('PATCH', '/v1/bodies/white', {
      body: { dustThresholdWetBasis: '0.9' },
    })
    expect(status).toBe(200)
    const clay = await does('open-books', {
      items: [{ what: 'clay', bodyId: 'white', lotId: 'now-dusty', reading: { net: kg('1') } }],
    })
    expect(clay['cautions']).not.toEqual([])
    const after = (await logged()).map(({ entryId }) => entryId)
    const { entryId } = clay['entry'] as { entryId: string }
    expect(after.sort()).toEqual([...before, entryId].sort())
  })

  test('belongs to one studio', async () => {
    expect((await dustOf(MONTH, NEIGHBOUR))['entries']).toEqual([])
  })

  test('is had as a table', async () => {
    const { contentType, text } = await pottery.ask(
      'GET',
      `/v1/reports/dust?month=${MONTH}&format=csv`,
    )
    expect(contentType).toContain('text/csv')
    expect(text.split('\r\n')[0]).toBe(
      'happened_at,kind,clay,recorded_by,why,instead,note,is_taken_back,trail',
    )
    expect(text.trim().split('\r\n')).toHaveLength((await logged()).length + 1)
  })
})

describe('the page of the dust log', () => {
  test('shows each with its caution and the limits, and says of no room that it is safe', async () => {
    const { status, text } = await page(`/books/dust?month=${MONTH}`)
    expect(status).toBe(200)
    expect(text.match(/<h1>/g)).toHaveLength(1)
    for (const { entryId } of await logged())
      expect(text).toContain(`/books/trail/entry/${entryId}`)
    expect(text).toContain('EH40/2005')
    expect(text).toContain('How much was in the air nobody measured here')
    expect(text.replaceAll(/<[^>]*>/g, ' ')).not.toMatch(/\bsafe\b/i)
  })

  test('of this month is shown where none is named', async () => {
    const { text } = await page('/books/dust')
    expect(text).toContain('Dust log, June 2026')
  })
})
