import type { NameOf, NamesAsked } from '../../../../db/reports/names.ts'
import { FLOW_OF_KIND, type EntryKind } from '../../../../shared/entry-kind.ts'
import { WORLD_ROWS } from '../../../../shared/month-world.ts'
import { PLACE_WORDS, type Place } from '../../../../shared/place.ts'
import { KIND_WORDS } from '../../entry-words.ts'
import type { Voice } from '../../voice.ts'

/** One thing that a list is narrowed to, by the field of the address that says so. */
export interface FilterSaid {
  readonly field: string
  readonly words: string
}

type Fields = readonly (readonly [string, string])[]
type Say = (text: string, voice: Voice, nameOf: NameOf) => string

const SAYINGS: Readonly<Record<string, Say>> = {
  month: (month, voice) => voice.month(month),
  fromMonth: (month, voice) => `from ${voice.month(month)} on`,
  toMonth: (month, voice) => `up to ${voice.month(month)}`,
  from: (moment, voice) => `from ${voice.moment(moment)} on`,
  to: (moment, voice) => `before ${voice.moment(moment)}`,
  kind: (kinds) => manyWords(kinds, kindWords),
  flow: (flows) => manyWords(flows, flowWords),
  world: (row) => WORLD_ROWS.find((one) => one.row === row)?.words ?? row,
  place: (place) => PLACE_WORDS[place as Place],
  bodyId: (id, _, nameOf) => nameOf('body', id),
  holdingId: (id, _, nameOf) => nameOf('holding', id),
  lotId: (id, _, nameOf) => nameOf('lot', id),
  runId: (id, _, nameOf) => nameOf('run', id),
  vesselId: (id, _, nameOf) => nameOf('vessel', id),
  formId: (id, _, nameOf) => nameOf('form', id),
  by: (who) => `written down by ${who}`,
  nonEmpty: (yes) => (yes === 'false' ? 'emptied ones too' : 'only what holds something'),
}

/** What a list is narrowed to, in words, one thing each. */
export function filterWords(fields: Fields, voice: Voice, nameOf: NameOf): FilterSaid[] {
  return fields.flatMap(([field, text]) => {
    const say = SAYINGS[field]
    return say === undefined ? [] : [{ field, words: voice.words(say(text, voice, nameOf)) }]
  })
}

/** The names that those words need. */
export function namesInFilters(fields: Fields): NamesAsked {
  const said = new Map(fields)
  const id = (field: string) => [said.get(field)]
  return {
    body: id('bodyId'),
    form: id('formId'),
    vessel: id('vesselId'),
    lot: id('lotId'),
    run: id('runId'),
    holding: id('holdingId'),
  }
}

function manyWords(list: string, wordsOf: (one: string) => string): string {
  return [...new Set(list.split(',').map(wordsOf))].join(', ')
}

/** What each kind of lot is called. */
export const LOT_KIND_WORDS: Readonly<Record<string, string>> = {
  delivery: 'delivered clay',
  opened: 'opened bags',
  load: 'loads on plaster',
  reclaimed: 'reclaimed clay',
  wedged: 'wedged clay',
  earlier: 'clay from before the books',
}

function kindWords(kind: string): string {
  return LOT_KIND_WORDS[kind] ?? KIND_WORDS[kind as EntryKind].toLowerCase()
}

function flowWords(flow: string): string {
  const kind = Object.entries(FLOW_OF_KIND).find(([, one]) => one === flow)?.[0]
  return kind === undefined ? flow : kindWords(kind)
}
