import { COUNTRIES } from '../../../shared/countries.ts'
import { CURRENCIES } from '../../../shared/money.ts'
import type { FormFaults } from '../field-words.tsx'
import { FaultSummary, Press, TextField } from '../fields.tsx'
import { SelectField } from '../select-field.tsx'
import type { Typed } from '../typed.ts'
import { WaysFields } from '../ways-fields.tsx'
import { ELSEWHERE } from './usual-there.ts'

interface BeginFormProps {
  readonly typed: Typed
  readonly faults?: FormFaults | undefined
  /** Made anew with each form, so that it begins one studio however often it is pressed. */
  readonly newKey: string
  readonly today: string
  /** Where that is usual which was just filled in. */
  readonly where?: string | undefined
}

const CURRENCY_NAMES = new Intl.DisplayNames('en-GB', { type: 'currency' })
const CURRENCY_CHOICES = CURRENCIES.map((value) => ({
  value,
  name: `${value} ${CURRENCY_NAMES.of(value) ?? ''}`,
}))
const COUNTRY_CHOICES = [
  ...COUNTRIES.map(({ code, name }) => ({ value: code, name })),
  { value: ELSEWHERE, name: 'Somewhere else' },
]
const TIME_ZONES = Intl.supportedValuesOf('timeZone')

/** All that a studio says of itself before its first entry, on one page. */
export function BeginForm({ typed, faults, newKey, today, where }: BeginFormProps) {
  const said = { typed, faults }
  return (
    <>
      <FaultSummary faults={faults} />
      {where === undefined ? null : <LookItOver where={where} />}
      <form method="post" action="/begin">
        <input type="hidden" name="key" value={typed.text('key') ?? newKey} />
        <TextField {...said} name="name" label="Name of the studio" hint="On pages and labels." />
        <SelectField
          {...said}
          name="country"
          label="Country"
          hint="Says what is usual below."
          open="Choose"
          choices={COUNTRY_CHOICES}
        />
        <button name="fill" value="yes" formmethod="get" formaction="/begin">
          Fill in what is usual there
        </button>
        <SelectField
          {...said}
          name="currency"
          label="Money"
          hint="Stays so for good."
          open="Choose"
          choices={CURRENCY_CHOICES}
        />
        <TextField
          {...said}
          name="timeZone"
          label="Clock on the wall"
          hint="Nearest city. Stays for good."
          before={TIME_ZONES}
          isTimeZone
        />
        <WaysFields {...said} today={today} />
        <Press>Begin the books</Press>
      </form>
    </>
  )
}

function LookItOver({ where }: { where: string }) {
  return (
    <div class="ask" role="status">
      <p>
        <strong>Filled in as is usual {where}.</strong> Look it over, then press Begin the books.
        Money and clock stay so for good; the rest may change.
      </p>
    </div>
  )
}
