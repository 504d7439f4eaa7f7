import { weighOut, type WeighOut } from '../../../db/reports/glaze-batch.ts'
import { recipesNow, type GlazeRecipeRow } from '../../../db/reports/glaze-recipes.ts'
import { hazardCautions } from '../../../shared/hazard-cautions.ts'
import { silicaCautions, type Caution } from '../../../shared/silica.ts'
import { actCalled } from '../act-called.ts'
import { CautionBox } from '../act-form.tsx'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { begunWith, fieldsOfMass, massOfGrams } from '../begun-with.ts'
import { ChoiceField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allVessels, type Vessel } from '../things.ts'
import { saidOnly, Typed } from '../typed.ts'
import { typedInto } from '../typed-into.ts'
import type { Voice } from '../voice.ts'
import { batchAsked } from './batch-asked.ts'
import { bucketsHere, type GlazeBucket } from './here.ts'
import { WeighOutList } from './weigh-out-list.tsx'

interface Mixing {
  readonly glazeId: string
  readonly list: WeighOut
  readonly recipe: GlazeRecipeRow
  readonly buckets: readonly Vessel[]
  /** The one that has of this glaze already. */
  readonly has: GlazeBucket | undefined
  readonly cautions: readonly Caution[]
}

/** A batch of glaze: what to weigh out, and the press once it is in its bucket. */
export const mixPage: ActPage<Mixing> = {
  path: '/glaze/weigh-out/:glazeId',
  act: actCalled('mix-glaze'),
  here: 'glaze',
  press: 'It is mixed',
  async load(c) {
    const glazeId = c.req.param('glazeId') ?? ''
    const studioId = c.get('studioId')
    const { db } = c.get('services')
    const typed =
      c.req.method === 'POST' ? await typedInto(c) : new Typed(new URL(c.req.url).searchParams)
    const list = await weighOut(db, { studioId, glazeId, ...batchAsked(typed) })
    const all = await recipesNow(db, { studioId, glazeId })
    const recipe = all.find(({ versionNo }) => versionNo === list.versionNo) ?? all[0]
    const filled = await bucketsHere(c)
    const other = filled.filter(({ materialId }) => materialId !== glazeId)
    return {
      glazeId,
      list,
      recipe: recipe as GlazeRecipeRow,
      buckets: (await allVessels(c)).filter(
        ({ vesselId, kind }) =>
          ['bucket', 'tin', 'other'].includes(kind) &&
          !other.some((bucket) => bucket.vesselId === vesselId),
      ),
      has: filled.find(({ materialId }) => materialId === glazeId),
      cautions: cautionsOf(recipe, c.get('voice')),
    }
  },
  title: () => 'Weigh out and mix',
  keeps: () => 'Glaze mixed',
  said: (typed, { glazeId, list }) => {
    const isOther = list.ingredients.some(({ materialId }) => typed.hasMass(`was-${materialId}`))
    return saidOnly({
      glazeId,
      vesselId: typed.text('vesselId'),
      versionNo: list.versionNo,
      dryGrams: isOther ? undefined : list.dryGrams,
      ingredients: isOther ? weighedOtherwise(typed, list) : undefined,
      water: typed.mass('water'),
    })
  },
  fieldOf: (_, { list }) => ({
    '': 'weigh-out',
    '/dryGrams': 'weigh-out',
    '/ingredients': 'weigh-out',
    '/vesselId': 'vesselId',
    '/water': 'water',
    ...Object.fromEntries(
      list.ingredients.map(({ materialId }, index) => [
        `/ingredients/${String(index)}`,
        `was-${materialId}`,
      ]),
    ),
  }),
  next: ({ made }) => `/glaze/bucket/${String(made['vesselId'])}`,
  Form: MixForm,
  After: WeighedOtherwise,
}

/** Those that differ as they were weighed, the others as they were listed. */
function weighedOtherwise(typed: Typed, list: WeighOut) {
  return list.ingredients.map(({ materialId, asSuppliedGrams }) => ({
    ingredientId: materialId,
    reading: typed.net(`was-${materialId}`) ?? { net: { value: asSuppliedGrams, unit: 'g' } },
  }))
}

/** What harms in any of its powders, and the dust of mixing where none of them says so. */
function cautionsOf(recipe: GlazeRecipeRow | undefined, voice: Voice): readonly Caution[] {
  const { jurisdiction } = voice.studio
  const parts = recipe?.parts ?? []
  const materials = parts.map(({ name, hazards }) => ({ name, statedHazards: hazards }))
  const stated = hazardCautions({ materials, isDry: true, jurisdiction })
  const dust = silicaCautions({
    handlesDryClay: false,
    dryAct: 'mixing_powders',
    waterContentWetBasis: undefined,
    dustThresholdWetBasis: undefined,
    jurisdiction,
  })
  const isSilicaStated = stated.some(({ title }) => title === undefined)
  return isSilicaStated ? stated : [...dust, ...stated]
}

function MixForm({ data, typed, voice, faults }: ActFormProps<Mixing>) {
  const { list, buckets, has, cautions } = data
  const [only, other] = buckets
  const usual = has?.vesselId ?? (other === undefined ? only?.vesselId : undefined)
  const { massUnits } = voice.studio
  const water = fieldsOfMass('water', massOfGrams(wholeGrams(list.waterToAddGrams)), massUnits)
  return (
    <>
      <input type="hidden" name="seen" value="yes" />
      <input type="hidden" name="dryGrams" value={list.dryGrams} />
      <input type="hidden" name="density" value={list.gramsPerMillilitre} />
      <input type="hidden" name="versionNo" value={String(list.versionNo)} />
      {cautions.map((caution) => (
        <CautionBox caution={caution} />
      ))}
      <WeighOutList list={list} voice={voice} />
      <ChoiceField
        name="vesselId"
        label="Into which bucket"
        usual={usual}
        isNeeded
        choices={buckets.map(({ vesselId, name }) => ({
          value: vesselId,
          name,
          hint: vesselId === has?.vesselId ? 'has this glaze' : 'no glaze in it',
        }))}
        typed={typed}
        faults={faults}
      />
      <MassField
        name="water"
        label="Water put in"
        hint="As listed. Change it where you put in more or less."
        unit="g"
        typed={begunWith(typed, water)}
        voice={voice}
        faults={faults}
      />
    </>
  )
}

const wholeGrams = (grams: string) => grams.split('.')[0] ?? grams

function WeighedOtherwise({ data, typed, voice, faults }: ActFormProps<Mixing>) {
  const { ingredients } = data.list
  const isOpen = ingredients.some(({ materialId }) => typed.hasMass(`was-${materialId}`))
  return (
    <details class="more" open={isOpen}>
      <summary>Some powder was weighed otherwise</summary>
      <p class="hint">Only those that differ from the list; the others stay as listed.</p>
      {ingredients.map(({ materialId, name }) => (
        <MassField
          name={`was-${materialId}`}
          label={name}
          unit="g"
          typed={typed}
          voice={voice}
          faults={faults}
        />
      ))}
    </details>
  )
}
