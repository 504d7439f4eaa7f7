import { pointsOfFraction } from '../../../shared/percent.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField, FaultSummary, Press, TextField } from '../fields.tsx'
import type { Light } from '../remembered.ts'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { WaysFields } from '../ways-fields.tsx'

interface Said {
  readonly typed: Typed
  readonly faults: FormFaults | undefined
}

/** What of a studio may change, for all who work there. */
export function StudioForm(props: Said & { voice: Voice; today: string }) {
  const { typed, faults, voice, today } = props
  const { studio } = voice
  const said = { typed, faults }
  return (
    <>
      <FaultSummary faults={faults} />
      <form method="post" action={`/books/studio?studio=${studio.studioId}`}>
        <TextField
          {...said}
          name="name"
          label="Name"
          hint="On pages and labels."
          usual={studio.name}
        />
        <WaysFields {...said} now={studio} today={today} />
        <ChoiceField
          {...said}
          name="comparesMakers"
          label="Compare makers"
          hint={voice.words('In the turning report.')}
          usual={studio.comparesMakers ? 'yes' : 'no'}
          choices={[
            { value: 'no', name: 'No', hint: 'nobody is set beside another' },
            { value: 'yes', name: 'Yes', hint: 'ask everybody first' },
          ]}
        />
        <CostingFields {...said} voice={voice} />
        <Press>Keep this</Press>
      </form>
    </>
  )
}

/** What seconds cost beside firsts, and what the potter's own hour is to be worth. */
function CostingFields({ typed, faults, voice }: Said & { voice: Voice }) {
  const { secondsCostRule, secondsPriceFraction, hourlyFigure, currency } = voice.studio
  const said = { typed, faults }
  return (
    <>
      <ChoiceField
        {...said}
        name="secondsCostRule"
        label="What a second costs"
        hint="Of the runs that are graded from now on."
        usual={secondsCostRule}
        choices={[
          {
            value: 'like_firsts',
            name: 'The same as a first',
            hint: 'A second carries the same cost as a first.',
          },
          { value: 'by_price', name: 'Less', hint: 'By what it sells for.' },
        ]}
      />
      <TextField
        {...said}
        name="secondsPriceFraction"
        label="A second sells for"
        hint="Of what a first sells for. It counts where seconds cost less."
        usual={pointsOfFraction(secondsPriceFraction)}
        inputmode="decimal"
        after="%"
      />
      <TextField
        {...said}
        name="hourlyFigure"
        label="An hour of your own"
        hint="Never part of a cost; only to compare reclaim with. Empty: nothing is compared."
        usual={hourlyFigure ?? undefined}
        inputmode="decimal"
        after={currency}
      />
    </>
  )
}

const LIGHT_CHOICES: readonly { value: Light | 'phone'; name: string; hint: string }[] = [
  { value: 'phone', name: 'As the phone', hint: 'it knows day and night' },
  { value: 'dim', name: 'Dim', hint: 'light letters' },
  { value: 'bright', name: 'Bright', hint: 'dark letters' },
]

/** What only this phone remembers. */
export function PhoneForm(
  props: Said & { studioId: string; by: string | undefined; light: Light | undefined },
) {
  const { typed, faults, studioId, by, light } = props
  const said = { typed, faults }
  return (
    <section>
      <h2>This phone</h2>
      <form method="post" action={`/books/studio/phone?studio=${studioId}`}>
        <TextField
          {...said}
          name="who"
          label="Who works at it"
          hint="Stands with each entry. Empty: nobody."
          usual={by}
        />
        <ChoiceField
          {...said}
          name="light"
          label="Light of the room"
          hint="How bright its pages are."
          usual={light ?? 'phone'}
          choices={LIGHT_CHOICES}
        />
        <button>Keep on this phone</button>
      </form>
    </section>
  )
}

/** What stays as it was begun, and the way to other studios. */
export function StudioFixed({ voice }: { voice: Voice }) {
  const { currency, timeZone, createdAt } = voice.studio
  return (
    <>
      <section>
        <h2>Stays for good</h2>
        <p>What is recorded was recorded in these.</p>
        <dl class="stays">
          <div>
            <dt>Money</dt>
            <dd>{currency}</dd>
          </div>
          <div>
            <dt>Clock on the wall</dt>
            <dd>{timeZone}</dd>
          </div>
          <div>
            <dt>Books begun</dt>
            <dd>{voice.day(createdAt)}</dd>
          </div>
        </dl>
      </section>
      <p>
        <a class="button" href="/begin">
          Another studio
        </a>
      </p>
    </>
  )
}
