import { doubtfulBags } from '../../../shared/is-this-right.ts'
import { gramsTyped, type Mass } from '../../../shared/units.ts'
import { decimal } from '../../../shared/decimal.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { daySaid } from '../day-said.ts'
import { ChoiceField, CountField, TextField, type Choice } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allBodies, type Body } from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { waterSaid } from '../water-said.ts'

interface Delivery {
  /** Clays that are bought: all but blends. */
  readonly clays: readonly Body[]
  readonly voice: Voice
}

/** What stands behind the names of the fields of the first clay of a delivery, the second, and so on. */
const ROWS = ['', '2', '3', '4'] as const
type Row = (typeof ROWS)[number]

const PARTS = ['bags', 'bagMass', 'bagMassPounds', 'bagMassOunces', 'price', 'label', 'water']

/** Parts that most leave empty, folded away. */
const LESS_COMMON = ['label', 'water']

const BAG_CHOICES: readonly Choice[] = [
  { value: 'label', name: 'One bag, by its label' },
  { value: 'scale', name: 'All bags, on the scale' },
]

/** The rows that count: the first, and all up to the last in which something was typed. */
function rowsTyped(typed: Typed): readonly Row[] {
  const isTyped = (row: Row) => PARTS.some((part) => typed.text(`${part}${row}`) !== undefined)
  const last = ROWS.findLastIndex(isTyped)
  return ROWS.slice(0, Math.max(1, last + 1))
}

function claySaid(typed: Typed, row: Row, { clays, voice }: Delivery) {
  const bodyId = typed.text(`bodyId${row}`) ?? (clays.length === 1 ? clays[0]?.bodyId : undefined)
  const mass = typed.mass(`bagMass${row}`)
  const bags = typed.count(`bags${row}`)
  const isWeighed = typed.text(`howKnown${row}`) === 'scale'
  if (!isWeighed) askAboutBags(typed, { bags, mass })
  const name = clays.find((clay) => clay.bodyId === bodyId)?.name
  return saidOnly({
    bodyId,
    label: typed.text(`label${row}`) ?? (name && `${name}, ${daySaid(typed, voice)}`),
    bags,
    bagMass: isWeighed ? undefined : mass,
    reading: isWeighed && mass !== undefined ? { net: mass } : undefined,
    water: waterSaid(typed, `water${row}`),
    price: typed.decimal(`price${row}`),
  })
}

function askAboutBags(typed: Typed, said: { bags: unknown; mass: Mass | undefined }): void {
  const { bags, mass } = said
  if (typeof bags !== 'number' || mass === undefined) return
  const grams = gramsTyped(mass)
  if (!/^\d+(\.\d+)?$/.test(grams)) return
  typed.remarks.push(...doubtfulBags({ bags, bagGrams: decimal(grams) }))
}

const FIELDS_OF_ROW: Readonly<Record<string, string>> = {
  '': 'bagMass',
  '/bodyId': 'bodyId',
  '/label': 'label',
  '/bags': 'bags',
  '/bagMass': 'bagMass',
  '/reading': 'bagMass',
  '/water': 'water',
  '/price': 'price',
}

const fieldOf = Object.fromEntries([
  ['/freight', 'freight'],
  ...ROWS.flatMap((row, index) =>
    Object.entries(FIELDS_OF_ROW).map(([path, field]) => [
      `/clays/${String(index)}${path}`,
      `${field}${row}`,
    ]),
  ),
]) as Record<string, string>

/** Bags that came from the supplier. */
export const delivery: ActPage<Delivery> = {
  path: '/books/delivery',
  act: actCalled('receive-delivery'),
  here: 'books',
  press: 'Into the store',
  load: async (c) => ({
    clays: (await allBodies(c)).filter(({ isBlend }) => !isBlend),
    voice: c.get('voice'),
  }),
  title: () => 'Clay came in',
  said: (typed, data) =>
    saidOnly({
      clays: rowsTyped(typed).map((row) => claySaid(typed, row, data)),
      freight: typed.decimal('freight'),
    }),
  fieldOf,
  next: () => '/books/stock',
  Form: ({ data, typed, voice, faults }) => {
    const shown = { data, typed, voice, faults }
    const more = ROWS.slice(1)
    const isOpen = rowsTyped(typed).length > 1
    return (
      <>
        <ClayOfDelivery row="" {...shown} />
        <TextField
          name="freight"
          label="Freight of the whole delivery"
          hint="Shared out over its dry clay. Empty where there was none."
          inputmode="decimal"
          after={voice.studio.currency}
          typed={typed}
          faults={faults}
        />
        <details class="more" open={isOpen}>
          <summary>Other clays in the same delivery</summary>
          {more.map((row) => (
            <fieldset class="clay-of-delivery">
              <legend>Clay {row}</legend>
              <ClayOfDelivery row={row} {...shown} />
            </fieldset>
          ))}
        </details>
        <p class="hint">
          A bag of 25 kg, or a box of 50 lb, is too heavy for many backs: use a trolley, lift with
          two, or open the box.
        </p>
      </>
    )
  },
  Below: () => (
    <p>
      A clay that is not among these:{' '}
      <a href="/books/things/bodies/new?then=/books/delivery">enter it first</a>. Bags that were
      here before the books: <a href="/books/opening">opening balances</a>.
    </p>
  ),
}

function ClayOfDelivery(props: ActFormProps<Delivery> & { row: Row }) {
  const { data, row, typed, voice, faults } = props
  const field = { typed, faults }
  const isFirst = row === ''
  const [only, other] = data.clays
  return (
    <>
      <ChoiceField
        {...field}
        name={`bodyId${row}`}
        label="Which clay"
        usual={isFirst && other === undefined ? only?.bodyId : undefined}
        isNeeded={isFirst}
        choices={data.clays.map(({ bodyId, name }) => ({ value: bodyId, name }))}
      />
      <CountField {...field} name={`bags${row}`} label="How many bags" isNeeded={isFirst} />
      <MassField
        {...field}
        voice={voice}
        name={`bagMass${row}`}
        label="How heavy"
        isNeeded={isFirst}
      />
      <ChoiceField
        {...field}
        name={`howKnown${row}`}
        label="That is"
        usual="label"
        choices={BAG_CHOICES}
      />
      <TextField
        {...field}
        name={`price${row}`}
        label="What these bags cost together"
        hint="Without freight. 0 where they cost nothing."
        inputmode="decimal"
        after={voice.studio.currency}
        isNeeded={isFirst}
      />
      <details class="more" open={LESS_COMMON.some((part) => typed.text(part + row) !== undefined)}>
        <summary>What to call them, or their water</summary>
        <TextField
          {...field}
          name={`label${row}`}
          label="What to call them"
          hint="The supplier, the batch. Empty: the clay and the day."
        />
        <TextField
          {...field}
          name={`water${row}`}
          label="Water in them"
          hint="Of the wet mass, where the supplier says it. Empty: as is usual for this clay."
          inputmode="decimal"
          after="%"
        />
      </details>
    </>
  )
}
