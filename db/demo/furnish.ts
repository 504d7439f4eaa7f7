import { createStudio } from '../catalogue-studios.ts'
import { bats, bodies, forms, scales, vessels, type CatalogueItem } from '../catalogue.ts'
import type { Services } from '../perform.ts'
import {
  DEMO_BATS,
  DEMO_BODIES,
  DEMO_FORMS,
  DEMO_SCALES,
  DEMO_STUDIO,
  DEMO_VESSELS,
} from './catalogue.ts'

/** Enters the made-up studio and what it has, as anybody would. */
export async function furnishDemo(services: Services): Promise<void> {
  const { studioId } = await createStudio(services, DEMO_STUDIO)
  const enter = async (catalogue: typeof bodies, items: readonly CatalogueItem[]) => {
    for (const item of items) await catalogue.create(services, studioId, item)
  }
  await enter(bodies, DEMO_BODIES)
  await enter(forms, DEMO_FORMS)
  await enter(vessels, DEMO_VESSELS)
  await enter(scales, DEMO_SCALES)
  await enter(bats, DEMO_BATS)
}
