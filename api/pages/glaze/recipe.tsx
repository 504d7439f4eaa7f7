import type { Context } from 'hono'
import { addRecipe } from '../../../db/glaze-recipes.ts'
import { recipesNow, type GlazeRecipeRow } from '../../../db/reports/glaze-recipes.ts'
import { FaultOfForm, faultsOf } from '../../faults.ts'
import { newRecipeSchema } from '../../recipe-schemas.ts'
import { newRouter } from '../../router.ts'
import type { Environment } from '../../services.ts'
import type { FormFaults } from '../field-words.tsx'
import { enterFirst, Ways } from '../first-needed.tsx'
import { refuseMissing } from '../missing.ts'
import { faultsForPage } from '../page-faults.ts'
import { show } from '../show.tsx'
import { allMaterials, type Material } from '../things.ts'
import { Typed } from '../typed.ts'
import { typedInto } from '../typed-into.ts'
import { RecipeForm, recipeTyped } from './recipe-form.tsx'
import { RecipePage } from './recipe-page.tsx'

type PageContext = Context<Environment>

const PATH = '/glaze/recipe/:glazeId'

/** Recipes of glazes, version by version. */
export const recipePages = newRouter()

recipePages.get(PATH, async (c) => {
  const { glaze, recipes } = await recipeHere(c)
  const isNew = c.req.query('entered') === 'yes'
  return show(
    c,
    { title: glaze.name, here: 'glaze' },
    <RecipePage glaze={glaze} recipes={recipes} isNew={isNew} voice={c.get('voice')} />,
  )
})

recipePages.get(`${PATH}/new`, (c) => showNew(c, { typed: new Typed() }))

recipePages.post(`${PATH}/new`, async (c) => {
  const typed = await typedInto(c)
  const { glaze, powders, latest } = await recipeHere(c)
  try {
    if (typed.text('after') !== String(latest?.versionNo ?? 0)) {
      refuseMissing('note', 'A version was entered meanwhile. Look at it, then press again.')
    }
    const read = newRecipeSchema.safeParse(recipeTyped(typed, { powders, latest }))
    if (!read.success) throw new FaultOfForm(faultsOf(read.error.issues, 'json'))
    const which = { studioId: c.get('studioId'), glazeId: glaze.materialId }
    await addRecipe(c.get('services'), which, read.data)
    return c.redirect(`/glaze/recipe/${glaze.materialId}?entered=yes`, 303)
  } catch (error) {
    const said = recipeOf(typed, { powders, latest })
    return showNew(c, { typed, ...faultsForPage(error, fieldsOf(said), c.get('voice')) })
  }
})

/** The lines as they were typed, as far as they are digits at all. */
function recipeOf(typed: Typed, form: { powders: Material[]; latest: GlazeRecipeRow | undefined }) {
  try {
    return recipeTyped(typed, form).parts
  } catch (error) {
    if (error instanceof FaultOfForm) return []
    throw error
  }
}

function fieldsOf(parts: readonly { readonly ingredientId: string }[]): Record<string, string> {
  const lines = parts.map(({ ingredientId }, index) => [
    `/parts/${String(index)}`,
    `parts-${ingredientId}`,
  ])
  return { '/note': 'note', ...Object.fromEntries(lines) }
}

async function recipeHere(c: PageContext) {
  const glazeId = c.req.param('glazeId') ?? ''
  const recipes = await recipesNow(c.get('services').db, { studioId: c.get('studioId'), glazeId })
  const materials = await allMaterials(c)
  const name = materials.find(({ materialId }) => materialId === glazeId)?.name ?? glazeId
  const powders = materials.filter(({ kind }) => kind === 'ingredient')
  return { glaze: { materialId: glazeId, name }, recipes, powders, latest: recipes[0] }
}

interface Shown {
  readonly typed: Typed
  readonly faults?: FormFaults
  readonly status?: 404 | 409 | 422
}

async function showNew(c: PageContext, { typed, faults, status }: Shown): Promise<Response> {
  const { glaze, powders, latest } = await recipeHere(c)
  const title = `${glaze.name}: ${latest === undefined ? 'its recipe' : 'a new version'}`
  const path = `/glaze/recipe/${glaze.materialId}`
  return show(
    c,
    { title, here: 'glaze', status },
    <>
      <h1>{title}</h1>
      {powders.length === 0 ? (
        <>
          <p>First enter the powders that it is mixed from.</p>
          <Ways ways={[enterFirst('materials', 'Enter a powder', `${path}/new`)]} />
        </>
      ) : (
        <RecipeForm
          action={`${path}/new?studio=${c.get('studioId')}`}
          newKey={c.get('services').newId()}
          powders={powders}
          latest={latest}
          typed={typed}
          faults={faults}
        />
      )}
      <p>
        A powder that is not among these:{' '}
        <a href={`/books/things/materials/new?then=${encodeURIComponent(`${path}/new`)}`}>
          enter it first
        </a>
        . <a href={path}>The recipe as it is</a>
      </p>
    </>,
  )
}
