import type { Use } from '../../../db/acts/use-material.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField, CountField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { saidOnly } from '../typed.ts'
import { amountWords, materialAtHand, type MaterialAtHand } from './here.ts'

const WHY_WORDS: Readonly<Record<Use, { name: string; hint?: string }>> = {
  into_kiln: { name: 'Into the kiln', hint: 'paid from what firings were charged for wear' },
  spoiled: { name: 'Spoiled' },
  thrown_away: { name: 'Thrown away' },
  tested: { name: 'For tests', hint: 'tiles, trials' },
  given_away: { name: 'Given away' },
}

/** A material leaves the shelf for no pot. */
export const useMaterialPage: ActPage<MaterialAtHand> = {
  path: '/books/materials/:materialId/use',
  act: actCalled('use-material'),
  here: 'books',
  press: 'It went',
  load: materialAtHand,
  title: ({ material }) => `Gone: ${material.name}`,
  cautions: ({ cautions }) => cautions,
  said: (typed, { material }) => {
    const isAll = typed.isYes('whatIsLeft')
    return saidOnly({
      materialId: material.materialId,
      why: typed.text('why'),
      pieces: isAll ? undefined : typed.count('pieces'),
      reading: isAll ? undefined : typed.net('taken'),
      whatIsLeft: isAll ? true : undefined,
    })
  },
  fieldOf: (_, { material }) => ({
    '': material.keptBy === 'count' ? 'pieces' : 'taken',
    '/pieces': 'pieces',
    '/reading': 'taken',
    '/why': 'why',
    '/whatIsLeft': 'whatIsLeft',
  }),
  next: (_, { material }) => `/books/materials/${material.materialId}`,
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    const { kind, keptBy } = data.material
    const uses = Object.entries(WHY_WORDS).filter(
      ([why]) => why !== 'into_kiln' || kind === 'kiln_furniture',
    )
    return (
      <>
        <p>
          On the shelf by the books: <strong>{amountWords(data.shelf, voice)}</strong>.
        </p>
        <ChoiceField
          {...field}
          name="why"
          label="Where it went"
          usual={kind === 'kiln_furniture' ? 'into_kiln' : undefined}
          isNeeded
          choices={uses.map(([value, words]) => ({ value, ...words }))}
        />
        {keptBy === 'count' ? (
          <CountField {...field} name="pieces" label="How many" />
        ) : (
          <MassField
            {...field}
            voice={voice}
            name="taken"
            label="How much, without its tub"
            unit="g"
          />
        )}
        <ChoiceField
          {...field}
          name="whatIsLeft"
          label="Or"
          isMany
          choices={[{ value: 'yes', name: 'All that was left of it' }]}
        />
        <p class="hint">
          What goes into glaze, onto pots and into parcels is told when that is done, not here.
        </p>
      </>
    )
  },
}
