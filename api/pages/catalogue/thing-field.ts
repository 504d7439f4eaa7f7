import { decimal } from '../../../shared/decimal.ts'
import { CLAY_STATES, DEFAULT_MOISTURE, type ClayState } from '../../../shared/moisture.ts'
import {
  fractionOfPoints,
  pointsOfFraction,
  pointsOfUncertainty,
  uncertaintyOfPoints,
} from '../../../shared/percent.ts'
import { poundsToType } from '../../../shared/typed-pounds.ts'
import { convertedExactly, gramsTyped } from '../../../shared/units.ts'
import type { MaterialKind } from '../../../shared/material.ts'
import { STATE_WORDS } from '../state-words.ts'
import type { Choice } from '../fields.tsx'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { fieldsOfList, listAsTyped, listInWords, readList, type ListKind } from './list-fields.ts'

/** One field of a thing of the studio, as it is typed on a page and kept in the books. */
export interface ThingField {
  /** As the books name it. */
  readonly name: string
  readonly label: string
  readonly hint?: string
  /** Words are as typed; points are of a hundred, and a fraction in the books; grams a mass. */
  readonly kind:
    | 'words'
    | 'day'
    | 'grams'
    | 'points'
    | 'number'
    | 'money'
    | 'choice'
    | 'yes_no'
    | 'water'
    | ListKind
  readonly unit?: 'g' | 'kg'
  /** What stands behind the digits. */
  readonly after?: string
  readonly choices?: readonly Choice[]
  /** Materials of the studio of one kind, which become its choices when the page is made. */
  readonly choicesOf?: MaterialKind
  readonly isNeeded?: boolean
  /** What counts where the field is left empty, as the books have it. Nothing counts otherwise. */
  readonly usual?: string
  /** What is possible, in the page's units: said where a figure is outside. */
  readonly range?: string
  /** Said once, when the thing is entered. */
  readonly isFixed?: boolean
  /** Folded away: most leave it empty. */
  readonly isRare?: boolean
}

interface Figure {
  readonly waterContentWetBasis: string
  readonly standardUncertainty: string
}

export const waterField = (state: ClayState) => `water-${state}`
export const unsureField = (state: ClayState) => `unsure-${state}`

function isList(kind: ThingField['kind']): kind is ListKind {
  return kind === 'hazards' || kind === 'price_steps' || kind === 'packing'
}

type Read = (field: ThingField, typed: Typed) => unknown

const READ: Readonly<Record<Exclude<ThingField['kind'], ListKind>, Read>> = {
  words: ({ name }, typed) => typed.text(name),
  day: ({ name }, typed) => typed.text(name),
  choice: ({ name }, typed) => typed.text(name),
  number: ({ name }, typed) => typed.decimal(name),
  money: ({ name }, typed) => typed.decimal(name),
  yes_no: ({ name }, typed) => (typed.text(name) === undefined ? undefined : typed.isYes(name)),
  points({ name }, typed) {
    const points = typed.decimal(name)
    return points === undefined ? undefined : fractionOfPoints(points)
  },
  grams({ name }, typed) {
    const mass = typed.mass(name)
    return mass === undefined ? undefined : gramsTyped(mass)
  },
  water: (_, typed) => readWater(typed),
}

/** What was typed into a field, as the books would have it; undefined where it was left empty. */
export function readField(field: ThingField, typed: Typed): unknown {
  const { kind, choices = [] } = field
  return isList(kind) ? readList(kind, typed, choices) : READ[kind](field, typed)
}

/** What is said of the water by state; how unsure it is, is the usual where only the water was said. */
function readWater(typed: Typed): Partial<Record<ClayState, Partial<Figure>>> {
  const said = CLAY_STATES.flatMap((state) => {
    const points = typed.decimal(waterField(state))
    const unsure = typed.decimal(unsureField(state))
    if (points === undefined && unsure === undefined) return []
    const water = points === undefined ? {} : { waterContentWetBasis: fractionOfPoints(points) }
    const standardUncertainty =
      unsure === undefined
        ? DEFAULT_MOISTURE[state].standardUncertainty.toFixed()
        : uncertaintyOfPoints(unsure)
    return [[state, { ...water, standardUncertainty }] as const]
  })
  return Object.fromEntries(said)
}

type AsTyped = (field: ThingField, value: unknown, voice: Voice) => [string, string][]

const asText: AsTyped = ({ name, kind }, value) => [[name, textOf(value, kind)]]

const AS_TYPED: Readonly<Record<Exclude<ThingField['kind'], ListKind>, AsTyped>> = {
  words: asText,
  day: asText,
  choice: asText,
  number: asText,
  money: asText,
  yes_no: ({ name }, value) => [[name, value === true ? 'yes' : 'no']],
  points: ({ name }, value) => [[name, pointsOfFraction(String(value))]],
  grams: (field, value, voice) => massAsTyped(field, String(value), voice),
  water: (_, value) =>
    Object.entries(value as Record<string, Figure>).flatMap(([state, figure]) =>
      waterAsTyped(state, figure),
    ),
}

/** A field of the books as it would have been typed: names of fields on the page, and their text. */
export function asTyped(field: ThingField, value: unknown, voice: Voice): [string, string][] {
  const { kind } = field
  if (value === null || value === undefined) return []
  return isList(kind) ? listAsTyped(kind, value) : AS_TYPED[kind](field, value, voice)
}

function textOf(value: unknown, kind: ThingField['kind']): string {
  return kind === 'number' || kind === 'money' ? decimal(String(value)).toFixed() : String(value)
}

function massAsTyped({ name, unit }: ThingField, grams: string, voice: Voice): [string, string][] {
  if (voice.studio.massUnits === 'pounds_ounces') {
    const { pounds, ounces } = poundsToType(decimal(grams))
    return [
      [`${name}Pounds`, pounds],
      [`${name}Ounces`, ounces],
    ]
  }
  return [
    [name, convertedExactly(decimal(grams), 'g', unit ?? 'g').toFixed()],
    [`${name}Unit`, unit ?? 'g'],
  ]
}

function waterAsTyped(state: string, figure: Figure): [string, string][] {
  return [
    [waterField(state as ClayState), pointsOfFraction(figure.waterContentWetBasis)],
    [unsureField(state as ClayState), pointsOfUncertainty(figure.standardUncertainty)],
  ]
}

type InWords = (value: unknown, field: ThingField, voice: Voice) => string

const IN_WORDS: Readonly<Record<ThingField['kind'], InWords>> = {
  words: String,
  day: (value, _, voice) => voice.day(`${String(value)}T12:00:00Z`),
  hazards: (value, _, voice) => listInWords('hazards', value, voice),
  price_steps: (value, _, voice) => listInWords('price_steps', value, voice),
  packing: (value, _, voice) => listInWords('packing', value, voice),
  choice: (value, { choices = [] }) =>
    choices.find((choice) => choice.value === value)?.name ?? String(value),
  yes_no: (value) => (value === true ? 'yes' : 'no'),
  number: (value, { after = '' }) => `${decimal(String(value)).toFixed()} ${after}`.trim(),
  money: (value, _, voice) => voice.money(String(value)),
  points: (value) => `${pointsOfFraction(String(value))} %`,
  grams: (value, _, voice) => voice.mass(String(value)),
  water: (value, _, voice) => waterInWords(value as Record<string, Figure>, voice),
}

/** A field of the books in words, for its history. */
export function inWords(field: ThingField, value: unknown, voice: Voice): string {
  if (value === null || value === undefined || value === '') return 'nothing'
  return IN_WORDS[field.kind](value, field, voice)
}

function waterInWords(value: Readonly<Record<string, Figure>>, voice: Voice): string {
  const words = Object.entries(value).map(
    ([state, figure]) =>
      `${voice.words(STATE_WORDS[state as ClayState])} ${pointsOfFraction(figure.waterContentWetBasis)} %`,
  )
  return words.length === 0 ? 'nothing' : words.join(', ')
}

/** Where the faults of a thing stand on its page, by what the books call what is wrong. */
export function fieldsByPointer(fields: readonly ThingField[]): Readonly<Record<string, string>> {
  const pairs = fields.flatMap(({ name, kind, choices }) =>
    isList(kind)
      ? fieldsOfList(name, kind, choices ?? [])
      : kind === 'water'
        ? CLAY_STATES.flatMap((state) => [
            [`/${name}/${state}/waterContentWetBasis`, waterField(state)],
            [`/${name}/${state}/standardUncertainty`, unsureField(state)],
          ])
        : [[`/${name}`, name]],
  )
  return Object.fromEntries(pairs) as Record<string, string>
}
