import type { KilnsKnown } from '../../../db/reports/kilns.ts'
import { WHY_EMPTY } from '../../../db/acts/fire-empty.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import { refuseMissing } from '../missing.ts'
import { EnergyFields, energySaid, fireFieldsOf } from './fire-fields.tsx'
import { KilnCaution } from './kiln-caution.tsx'
import { kilnOf, kilnsFor } from './kiln-choice.tsx'

const WHY_WORDS: Readonly<Record<(typeof WHY_EMPTY)[number], string>> = {
  candling: 'Candling, drying out',
  standby: 'It was held hot',
  new_elements: 'New elements or shelves',
  test: 'A test',
  other: 'Something else',
}

/** A kiln was hot with nothing in it: no pot bears what that took. */
export const emptyPage: ActPage<KilnsKnown> = {
  path: '/kiln/empty',
  act: actCalled('fire-empty'),
  here: 'kiln',
  press: 'Fired empty',
  load: (c) => kilnsFor(c, 'bisque'),
  title: () => 'Fired with nothing in it',
  said: (typed, data) => ({
    kilnId: kilnOf(data, typed) ?? refuseMissing('kilnId', 'Which kiln was it?'),
    why: typed.text('why') ?? refuseMissing('why', 'Why was it hot?'),
    ...energySaid(typed),
  }),
  fieldOf: { '/why': 'why', ...fireFieldsOf('') },
  next: () => '/kiln',
  Form: EmptyForm,
  Below: () => <KilnCaution />,
}

function EmptyForm({ data, typed, voice, faults }: ActFormProps<KilnsKnown>) {
  const { kilns, lastKilnId } = data
  const field = { typed, faults }
  if (kilns.length === 0) {
    return (
      <p>
        No kiln is entered yet. <a href="/books/things/kilns/new">Enter your kiln</a> first.
      </p>
    )
  }
  const kilnId = kilnOf(data, typed) ?? lastKilnId
  const kiln = kilns.find((one) => one.kilnId === kilnId)
  return (
    <>
      {kilns.length < 2 ? null : (
        <ChoiceField
          {...field}
          name="kilnId"
          label="Which kiln"
          choices={kilns.map((one) => ({ value: one.kilnId, name: one.name }))}
          usual={lastKilnId ?? undefined}
        />
      )}
      <ChoiceField
        {...field}
        name="why"
        label="Why"
        usual="new_elements"
        choices={WHY_EMPTY.map((value) => ({ value, name: WHY_WORDS[value] }))}
      />
      <EnergyFields kiln={kiln} {...field} voice={voice} />
    </>
  )
}
