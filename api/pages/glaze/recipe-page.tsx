import type { GlazeRecipeRow } from '../../../db/reports/glaze-recipes.ts'
import { decimal } from '../../../shared/decimal.ts'
import { costPerKilogram } from '../../../shared/glaze-recipe.ts'
import { hazardCautions } from '../../../shared/hazard-cautions.ts'
import { CautionBox } from '../act-form.tsx'
import type { Voice } from '../voice.ts'
import { density } from './bucket-figures.tsx'
import { FoodContact } from './food-contact.tsx'

interface RecipePageProps {
  readonly glaze: { readonly materialId: string; readonly name: string }
  readonly recipes: readonly GlazeRecipeRow[]
  readonly isNew: boolean
  readonly voice: Voice
}

/** The recipe of a glaze as it is now, what it costs and what harms in it, and what it was before. */
export function RecipePage({ glaze, recipes, isNew, voice }: RecipePageProps) {
  const [now, ...older] = recipes
  const path = `/glaze/recipe/${glaze.materialId}`
  return (
    <>
      <h1>{glaze.name}</h1>
      {isNew ? (
        <p class="recorded" role="status">
          <strong>Entered.</strong> Batches before keep the recipe they were mixed by.
        </p>
      ) : null}
      {now === undefined ? <p>It has no recipe yet.</p> : <Version recipe={now} voice={voice} />}
      <p class="row">
        {now === undefined ? null : (
          <a class="button" href={`/glaze/mix/${glaze.materialId}`}>
            Mix it
          </a>
        )}
        <a class="button" href={`${path}/new`}>
          {now === undefined ? 'Enter its recipe' : 'A new version'}
        </a>
      </p>
      {now === undefined ? null : <Hazards recipe={now} voice={voice} />}
      <FoodContact voice={voice} />
      {older.length === 0 ? null : (
        <section>
          <h2>What it was before</h2>
          {older.map((recipe) => (
            <details class="more">
              <summary>
                Version {recipe.versionNo}, {voice.day(recipe.madeAt)}
              </summary>
              <Version recipe={recipe} voice={voice} />
            </details>
          ))}
        </section>
      )}
      <p>
        <a href={`/books/things/materials/${glaze.materialId}`}>This glaze in the catalogue</a> ·{' '}
        <a href="/glaze">Glaze</a>
      </p>
    </>
  )
}

function Version({ recipe, voice }: { recipe: GlazeRecipeRow; voice: Voice }) {
  const { versionNo, madeAt, note, parts, words } = recipe
  return (
    <>
      <p class="quiet">
        Version {versionNo}, {voice.day(madeAt)}
        {note === null ? '' : `: ${note}`}
      </p>
      <table class="recipe">
        <caption>Parts by dry mass</caption>
        <thead>
          <tr>
            <th scope="col">Powder</th>
            <th scope="col" class="number">
              Parts
            </th>
            <th scope="col" class="number">
              Of the whole
            </th>
          </tr>
        </thead>
        <tbody>
          {parts.map((part) => (
            <tr>
              <th scope="row">
                <a href={`/books/things/materials/${part.ingredientId}`}>{part.name}</a>
                {part.isAddition ? <small>addition</small> : null}
              </th>
              <td class="number">{part.parts}</td>
              <td class="number">{voice.share(part.fraction)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>{words}</p>
      <Figures recipe={recipe} voice={voice} />
    </>
  )
}

function Figures({ recipe, voice }: { recipe: GlazeRecipeRow; voice: Voice }) {
  const { costPerDryGram, costWords, lossOnIgnitionFraction, grainGramsPerMillilitre } = recipe
  return (
    <>
      <dl class="figures">
        <div>
          <dt>A kilogram dry</dt>
          <dd>
            {costPerDryGram === null
              ? 'not known'
              : voice.money(costPerKilogram(decimal(costPerDryGram)))}
          </dd>
        </div>
        <div>
          <dt>Lost in the fire</dt>
          <dd>{voice.share(lossOnIgnitionFraction)}</dd>
        </div>
        <div>
          <dt>Its grains</dt>
          <dd>{density(grainGramsPerMillilitre)}</dd>
        </div>
      </dl>
      <p class="hint">{costWords}</p>
    </>
  )
}

/** What harms in any of its powders; nothing stated is not the same as harmless. */
function Hazards({ recipe, voice }: { recipe: GlazeRecipeRow; voice: Voice }) {
  const { jurisdiction } = voice.studio
  const materials = recipe.parts.map(({ name, hazards }) => ({ name, statedHazards: hazards }))
  const silent = recipe.parts.filter(({ hazards }) => hazards.length === 0)
  return (
    <section>
      <h2>What harms in it</h2>
      {hazardCautions({ materials, isDry: true, jurisdiction }).map((caution) => (
        <CautionBox caution={caution} />
      ))}
      {silent.length === 0 ? null : (
        <p class="hint">
          Of {silent.map(({ name }) => name).join(', ')} nothing is stated here. That does not mean
          that nothing harms: enter what the safety data sheet says.
        </p>
      )}
    </section>
  )
}
