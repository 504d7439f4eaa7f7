import { expect } from 'vitest'
import { kg } from '../support/studio.ts'
import { get as getPage, post, type Fields } from './page-forms.ts'
import { openPlaster, type PlasterPottery } from './plaster-pottery.ts'
import type { Answered, Body, Pottery } from './pottery.ts'

const cookie = 'studio=mill-lane'

/** A pottery with a full basin and bats, behind its pages. */
export interface PlasterPages {
  readonly plaster: PlasterPottery
  readonly pottery: Pottery
  readonly get: (path: string) => Promise<Answered>
  readonly press: (
    path: string,
    fields: Fields,
    headers?: Record<string, string>,
  ) => Promise<Answered>
  readonly scrapInBucket: (state: string, kilograms: string) => Promise<void>
  readonly expectSame: (pressed: Pressed) => Promise<{ landed: Answered }>
}

/** A press of a form, the act that is behind it, and where it leads. */
export interface Pressed {
  readonly path: string
  readonly fields: Fields
  readonly act: string
  readonly said: object
  readonly next: string
}

export async function openPlasterPages(): Promise<PlasterPages> {
  const plaster = await openPlaster()
  const { pottery } = plaster
  const get = (path: string) => getPage(pottery, path, cookie)
  const press: PlasterPages['press'] = (path, fields, headers = {}) =>
    post(pottery, path, { fields, headers: { Cookie: cookie, ...headers } })
  return {
    plaster,
    pottery,
    get,
    press,
    scrapInBucket: async (state, kilograms) => {
      const scrap = { vesselId: 'bucket-1', bodyId: 'buff', state }
      await pottery.does('weigh-scrap', { ...scrap, reading: { net: kg(kilograms) } })
    },
    // A press records what the act would have recorded, which is asked just before.
    expectSame: async ({ path, fields, act, said, next }) => {
      const tried = await pottery.ask('POST', `/v1/acts/${act}?preview=true`, { body: said })
      expect([tried.status, tried.text]).toEqual([200, tried.text])
      const before = await pottery.entries()
      const answer = await press(path, fields)
      expect([answer.status, answer.text]).toEqual([303, ''])
      const location = answer.headers.get('location') ?? ''
      expect(location).toMatch(new RegExp(`^${next}\\?did=`))
      expect(await pottery.entries()).toBe(before + 1)
      const did = new URL(location, 'http://localhost').searchParams.get('did')
      const { body: entry } = await pottery.ask('GET', `/v1/entries/${String(did)}`)
      expect(tale(entry)).toEqual(tale(tried.body['entry'] as Body))
      return { landed: await get(location) }
    },
  }
}

/** What an entry came to, without its name, the names it made and its moment of writing. */
function tale(entry: Body) {
  const { said, lines, weighings, estimates } = entry as Record<string, Record<string, unknown>[]>
  const anywhere = (rows: Record<string, unknown>[] | undefined) =>
    rows?.map(({ holdingId: _holding, lotId: _lot, ...rest }) => rest)
  return {
    said,
    lines: anywhere(lines),
    weighings: anywhere(weighings)?.map(({ weighedAt: _at, ...rest }) => rest),
    estimates: anywhere(estimates),
  }
}

/** Slurry on two bats of three that were offered: net on one, with its bat on the other. */
export const onTwoBats: Fields = [
  ['key', 'pour-1'],
  ['basinVesselId', 'basin-1'],
  ['bats-offered', 'bat-a'],
  ['bats-offered', 'b'],
  ['bats', 'b'],
  ['bats-b', '6,00'],
  ['bats-bUnit', 'kg'],
  ['thick-b', '36'],
  ['bats-offered', 'c'],
  ['bats-c', '12.80'],
  ['bats-cUnit', 'kg'],
  ['bats-cTare', '7.30'],
  ['bats-cTareUnit', 'kg'],
]
