import type { CatalogueItem } from '../../../db/catalogue.ts'
import { SHARE_RULE_WORDS, type ShareRule } from '../../../shared/firing-share.ts'
import { HAZARDS } from '../../../shared/material-hazards.ts'
import { decimal } from '../../../shared/decimal.ts'
import type { MaterialKind } from '../../../shared/material.ts'
import { BATS } from '../../catalogue/bats.ts'
import { BODIES } from '../../catalogue/bodies.ts'
import { FORMS } from '../../catalogue/forms.ts'
import { KILNS } from '../../catalogue/kilns.ts'
import type { CatalogueResource } from '../../catalogue/resource.ts'
import { SCALES } from '../../catalogue/scales.ts'
import { MATERIALS } from '../../catalogue/materials.ts'
import { VESSELS } from '../../catalogue/vessels.ts'
import type { Voice } from '../voice.ts'
import { BODY_FIELDS } from './body-fields.ts'
import {
  BAT_FIELDS,
  FORM_FIELDS,
  SCALE_FIELDS,
  VESSEL_FIELDS,
  VESSEL_KINDS,
} from './other-fields.ts'
import { KILN_FIELDS, KIND_NAMES, MATERIAL_FIELDS } from './material-fields.ts'
import type { ThingField } from './thing-field.ts'

/** One kind of thing that a studio has, as its pages speak of it. */
export interface ThingKind {
  readonly resource: CatalogueResource
  readonly many: string
  /** As in "Enter a clay". */
  readonly one: string
  /** What is said of the whole list. */
  readonly about: string
  readonly fields: readonly ThingField[]
  /** The line below its name. */
  readonly line: (item: CatalogueItem, voice: Voice) => string
}

const said = (words: readonly (string | undefined | false)[]) =>
  words.filter((word) => word !== undefined && word !== false).join(' · ')

const mass = (voice: Voice, grams: unknown) =>
  grams === null || grams === undefined ? undefined : voice.mass(String(grams))

export const THING_KINDS: readonly ThingKind[] = [
  {
    resource: BODIES,
    many: 'Clays',
    one: 'clay',
    about: 'One for each body that is kept apart. Its water is learnt from samples that you dry.',
    fields: BODY_FIELDS,
    line: (item, voice) =>
      said([
        item['isBlend'] === true && 'a blend',
        `${voice.share(String(item['lossOnIgnitionFraction']))} lost in the fire`,
      ]),
  },
  {
    resource: FORMS,
    many: 'Forms',
    one: 'form',
    about: 'Shapes that are made again and again, and one for all one-offs if you like.',
    fields: FORM_FIELDS,
    line: (item, voice) =>
      said([
        item['ballGrams'] === null ? undefined : `ball ${mass(voice, item['ballGrams'])}`,
        item['price'] === null ? undefined : voice.money(String(item['price'])),
      ]),
  },
  {
    resource: VESSELS,
    many: 'Buckets, basins, boards and tins',
    one: 'bucket, basin, board or tin',
    about: 'Whatever stands on the scale with clay in it or on it.',
    fields: VESSEL_FIELDS,
    line: (item, voice) =>
      said([
        VESSEL_KINDS.find(({ value }) => value === item['kind'])?.name,
        `${mass(voice, item['tareGrams'])} empty`,
      ]),
  },
  {
    resource: SCALES,
    many: 'Scales',
    one: 'scale',
    about: 'The smallest step of a scale tells how sure its reading is.',
    fields: SCALE_FIELDS,
    line: (item, voice) =>
      `steps of ${mass(voice, item['divisionGrams'])} up to ${mass(voice, item['capacityGrams'])}`,
  },
  {
    resource: BATS,
    many: 'Plaster bats',
    one: 'plaster bat',
    about: 'The plaster slabs on which slurry dries. Wheel bats are not meant.',
    fields: BAT_FIELDS,
    line: (item, voice) =>
      said([
        item['dryGrams'] === null ? undefined : `${mass(voice, item['dryGrams'])} dry`,
        item['thicknessMillimetres'] === null
          ? undefined
          : `${String(item['thicknessMillimetres'])} mm thick`,
      ]),
  },
  {
    resource: MATERIALS,
    many: 'Powders, glazes, packaging and the rest',
    one: 'material',
    about:
      'What is kept beside clay. What its data sheet says of harm is shown whenever it is weighed.',
    fields: MATERIAL_FIELDS,
    line: (item) =>
      said([
        KIND_NAMES[item['kind'] as MaterialKind],
        hazardsOf(item['hazards'] as readonly { hazard: string }[]),
      ]),
  },
  {
    resource: KILNS,
    many: 'Kilns',
    one: 'kiln',
    about: 'What a kiln holds and what a kilowatt-hour costs tell what each fire adds to a pot.',
    fields: KILN_FIELDS,
    line: (item) =>
      said([
        item['volumeLitres'] !== null && `${shortNumber(item['volumeLitres'])} litres`,
        item['pricePerKilowattHour'] !== null &&
          `${shortNumber(item['pricePerKilowattHour'])} a kWh`,
        `shared out ${SHARE_RULE_WORDS[item['shareBy'] as ShareRule]}`,
      ]),
  },
]

/** Digits without the noughts behind them. */
function shortNumber(text: unknown): string {
  return decimal(String(text)).toFixed()
}

function hazardsOf(stated: readonly { hazard: string }[]): string | undefined {
  const names = HAZARDS.filter(({ code }) => stated.some(({ hazard }) => hazard === code))
  return names.length === 0 ? undefined : names.map(({ name }) => name.toLowerCase()).join(', ')
}
