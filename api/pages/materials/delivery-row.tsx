import type { ActFormProps } from '../act-page.tsx'
import { ChoiceField, CountField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { SelectField } from '../select-field.tsx'
import type { Material } from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { waterSaid } from '../water-said.ts'

/** What stands behind the names of the fields of the first material of a delivery, the second, and so on. */
export const ROWS = ['', '2', '3', '4', '5', '6'] as const
export type Row = (typeof ROWS)[number]

const PARTS = ['materialId', 'packs', 'pieces', 'mass', 'massPounds', 'massOunces', 'price']
const LESS_COMMON = ['label', 'water']

/** The rows that count: the first, and all up to the last in which something was typed. */
export function rowsTyped(typed: Typed): readonly Row[] {
  const isTyped = (row: Row) =>
    [...PARTS, ...LESS_COMMON].some((part) => typed.text(`${part}${row}`) !== undefined)
  return ROWS.slice(0, Math.max(1, ROWS.findLastIndex(isTyped) + 1))
}

/** One material of a delivery as the act is told it. */
export function materialSaid(typed: Typed, row: Row): object {
  const mass = typed.mass(`mass${row}`)
  const isWeighed = typed.text(`howKnown${row}`) === 'scale'
  return saidOnly({
    materialId: typed.text(`materialId${row}`),
    packs: typed.count(`packs${row}`),
    pieces: typed.count(`pieces${row}`),
    mass: isWeighed ? undefined : mass,
    reading: isWeighed && mass !== undefined ? { net: mass } : undefined,
    water: waterSaid(typed, `water${row}`),
    price: typed.decimal(`price${row}`),
    label: typed.text(`label${row}`),
  })
}

const FIELDS_OF_ROW: Readonly<Record<string, string>> = {
  '': 'mass',
  '/materialId': 'materialId',
  '/packs': 'packs',
  '/pieces': 'pieces',
  '/mass': 'mass',
  '/reading': 'mass',
  '/water': 'water',
  '/price': 'price',
  '/label': 'label',
}

/** The fields of all rows by what they are called in the act. */
export const FIELDS_OF_ROWS = Object.fromEntries(
  ROWS.flatMap((row, index) =>
    Object.entries(FIELDS_OF_ROW).map(([path, field]) => [
      `/materials/${String(index)}${path}`,
      `${field}${row}`,
    ]),
  ),
) as Record<string, string>

/** What one bag holds, where the catalogue says it. */
function packWords({ name, keptBy, packSize }: Material, voice: Voice): string {
  if (packSize === null) return name
  return `${name} (${keptBy === 'count' ? packSize : voice.mass(packSize)} a pack)`
}

/** The fields of one material that came. */
export function MaterialOfDelivery(
  props: ActFormProps<{ materials: readonly Material[] }> & { row: Row },
) {
  const { data, row, typed, voice, faults } = props
  const field = { typed, faults }
  const isFirst = row === ''
  return (
    <>
      <SelectField
        {...field}
        name={`materialId${row}`}
        label="What came"
        open="Choose"
        isNeeded={isFirst}
        choices={data.materials.map((one) => ({
          value: one.materialId,
          name: packWords(one, voice),
        }))}
      />
      <p class="hint">How much, in one of these ways:</p>
      <CountField {...field} name={`packs${row}`} label="Bags or cartons, full" />
      <MassField {...field} voice={voice} name={`mass${row}`} label="Or so heavy, all of it" />
      <ChoiceField
        {...field}
        name={`howKnown${row}`}
        label="That is"
        usual="label"
        choices={[
          { value: 'label', name: 'By label or bill' },
          { value: 'scale', name: 'On the scale' },
        ]}
      />
      <CountField {...field} name={`pieces${row}`} label="Or so many, of what is counted" />
      <TextField
        {...field}
        name={`price${row}`}
        label="What it cost"
        hint="All of it, without freight. 0 where it cost nothing."
        inputmode="decimal"
        after={voice.studio.currency}
        isNeeded={isFirst}
      />
      <details class="more" open={LESS_COMMON.some((part) => typed.text(part + row) !== undefined)}>
        <summary>Its batch, or its water</summary>
        <TextField {...field} name={`label${row}`} label="What the bag or the bill calls it" />
        <TextField
          {...field}
          name={`water${row}`}
          label="Water in it"
          hint="Of its mass. Empty: as the material says."
          inputmode="decimal"
          after="%"
        />
      </details>
    </>
  )
}
