import type { GlazeRecipeRow } from '../../../db/reports/glaze-recipes.ts'
import { begunWith } from '../begun-with.ts'
import type { FormFaults } from '../field-words.tsx'
import { FaultSummary, Press, TextField } from '../fields.tsx'
import type { Material } from '../things.ts'
import type { Typed } from '../typed.ts'
import { saidOnly } from '../typed.ts'

interface RecipeFormProps {
  readonly action: string
  readonly newKey: string
  readonly powders: readonly Material[]
  readonly latest: GlazeRecipeRow | undefined
  readonly typed: Typed
  readonly faults: FormFaults | undefined
}

/** A new version of a recipe: a line for each powder of the studio, those of the last version first. */
export function RecipeForm({ action, newKey, powders, latest, typed, faults }: RecipeFormProps) {
  const before = latest?.parts ?? []
  const usual = Object.fromEntries(
    before.map(({ ingredientId, parts }) => [`parts-${ingredientId}`, parts]),
  )
  const isFresh = typed.text('key') === undefined
  const isAddition = (id: string) =>
    isFresh
      ? before.some((part) => part.ingredientId === id && part.isAddition)
      : typed.all('additions').includes(id)
  return (
    <>
      <FaultSummary faults={faults} />
      <form method="post" action={action} class="act">
        <input type="hidden" name="key" value={newKey} />
        <input type="hidden" name="after" value={String(latest?.versionNo ?? 0)} />
        <p class="hint">
          Parts by dry mass. The base comes to 100 by custom; what colours or floats it is an
          addition, on top.
        </p>
        {inOrder(powders, latest).map(({ materialId, name }) => (
          <fieldset class="recipe-line">
            <legend class="unseen">{name}</legend>
            <TextField
              name={`parts-${materialId}`}
              label={name}
              inputmode="decimal"
              after="parts"
              typed={begunWith(typed, usual)}
              faults={faults}
            />
            <label class="choice">
              <input
                type="checkbox"
                name="additions"
                value={materialId}
                checked={isAddition(materialId)}
                aria-label={`${name} is an addition`}
              />
              <span>Addition</span>
            </label>
          </fieldset>
        ))}
        <TextField name="note" label="What is new in it" typed={typed} faults={faults} />
        <Press>Enter it</Press>
      </form>
    </>
  )
}

/** The powders, those of the last version first and in its order. */
function inOrder(powders: readonly Material[], latest: GlazeRecipeRow | undefined): Material[] {
  const order = latest?.parts.map(({ ingredientId }) => ingredientId) ?? []
  const placeOf = ({ materialId }: Material) => {
    const place = order.indexOf(materialId)
    return place < 0 ? order.length : place
  }
  return [...powders].sort((one, other) => placeOf(one) - placeOf(other))
}

/** What was typed of a recipe, in the order of the form, as the books take it. */
export function recipeTyped(typed: Typed, form: Pick<RecipeFormProps, 'powders' | 'latest'>) {
  const parts = inOrder(form.powders, form.latest).flatMap(({ materialId }) => {
    const amount = typed.decimal(`parts-${materialId}`)
    if (amount === undefined || /^0*(\.0*)?$/.test(amount)) return []
    const isAddition = typed.all('additions').includes(materialId)
    return [{ ingredientId: materialId, parts: amount, ...(isAddition ? { isAddition } : {}) }]
  })
  return saidOnly({ parts, note: typed.text('note') })
}
