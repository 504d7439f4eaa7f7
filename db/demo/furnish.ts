import { changeStudio, createStudio } from '../catalogue-studios.ts'
import {
  bats,
  bodies,
  forms,
  kilns,
  materials,
  scales,
  vessels,
  type CatalogueItem,
} from '../catalogue.ts'
import { addRecipe } from '../glaze-recipes.ts'
import type { Services } from '../perform.ts'
import {
  DEMO_BATS,
  DEMO_BODIES,
  DEMO_FORMS,
  DEMO_SCALES,
  DEMO_STUDIO,
  DEMO_VESSELS,
} from './catalogue.ts'
import { DEMO_KILNS, DEMO_MATERIALS, DEMO_RECIPES, OF_FORM } from './materials.ts'

/** Enters the made-up studio and what it has, as anybody would. */
export async function furnishDemo(services: Services): Promise<void> {
  const { studioId } = await createStudio(services, DEMO_STUDIO)
  await changeStudio(services, studioId, {
    ...{ secondsCostRule: 'by_price', secondsPriceFraction: '0.5', hourlyFigure: '18.00' },
  })
  const enter = async (catalogue: typeof bodies, items: readonly CatalogueItem[]) => {
    for (const item of items) await catalogue.create(services, studioId, item)
  }
  await enter(bodies, DEMO_BODIES)
  await enter(materials, DEMO_MATERIALS)
  for (const { glazeId, said } of DEMO_RECIPES) {
    await addRecipe(services, { studioId, glazeId }, said)
  }
  await enter(kilns, DEMO_KILNS)
  await enter(
    forms,
    DEMO_FORMS.map((form) => ({ ...form, ...OF_FORM[form.formId] })),
  )
  await enter(vessels, DEMO_VESSELS)
  await enter(scales, DEMO_SCALES)
  await enter(bats, DEMO_BATS)
}
