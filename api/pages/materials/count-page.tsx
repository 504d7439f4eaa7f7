import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField, CountField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { saidOnly } from '../typed.ts'
import { waterSaid } from '../water-said.ts'
import { amountWords, isPowder, materialAtHand, type MaterialAtHand } from './here.ts'

/** What of a material is truly on the shelf. */
export const countMaterialPage: ActPage<MaterialAtHand> = {
  path: '/books/materials/:materialId/count',
  act: actCalled('count-material'),
  here: 'books',
  press: 'That is there',
  load: materialAtHand,
  title: ({ material }) => material.name,
  cautions: ({ cautions }) => cautions,
  said: (typed, { material }) => {
    const isNone = typed.isYes('nothingLeft')
    return saidOnly({
      materialId: material.materialId,
      pieces: isNone ? undefined : typed.count('pieces'),
      reading: isNone ? undefined : typed.gross('gross'),
      water: isNone ? undefined : waterSaid(typed, 'water'),
      nothingLeft: isNone ? true : undefined,
    })
  },
  fieldOf: (_, { material }) => ({
    '': material.keptBy === 'count' ? 'pieces' : 'gross',
    '/pieces': 'pieces',
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/water': 'water',
    '/nothingLeft': 'nothingLeft',
  }),
  next: (_, { material }) => `/books/materials/${material.materialId}`,
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    return (
      <>
        <p>
          By the books: <strong>{amountWords(data.shelf, voice)}</strong>.
        </p>
        {data.material.keptBy === 'count' ? (
          <CountField {...field} name="pieces" label="How many are there" />
        ) : (
          <>
            <MassField {...field} voice={voice} name="gross" label="All of it weighs" />
            <MassField
              {...field}
              voice={voice}
              name="grossTare"
              label="Its sack or tub, empty"
              hint="Nothing where the scale was set to zero with it."
            />
          </>
        )}
        <ChoiceField
          {...field}
          name="nothingLeft"
          label="Or"
          isMany
          choices={[{ value: 'yes', name: 'Nothing of it is there any more' }]}
        />
      </>
    )
  },
  After: ({ data, typed, faults }) =>
    isPowder(data.material.kind) ? (
      <details class="more" open={typed.text('water') !== undefined}>
        <summary>Its water</summary>
        <TextField
          name="water"
          label="Water in it"
          hint="Of the wet mass. Empty: as the material says."
          inputmode="decimal"
          after="%"
          typed={typed}
          faults={faults}
        />
      </details>
    ) : null,
}
