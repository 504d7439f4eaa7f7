import type { Services } from '../perform.ts'
import { bat, body, form, scale, studio, vessel } from '../schema.ts'
import {
  DEMO_BATS,
  DEMO_BODIES,
  DEMO_FORMS,
  DEMO_SCALES,
  DEMO_STUDIO,
  DEMO_VESSELS,
} from './catalogue.ts'

export async function furnishDemo(services: Services): Promise<void> {
  const at = { studioId: DEMO_STUDIO.studioId, changedAt: services.now() }
  await services.db.insert(studio).values({ ...DEMO_STUDIO, createdAt: services.now() })
  await services.db
    .insert(body)
    .values(DEMO_BODIES.map((row) => ({ ...at, grainGramsPerMillilitre: '2.6', ...row })))
  await services.db.insert(form).values(DEMO_FORMS.map((row) => ({ ...at, ...row })))
  await services.db.insert(vessel).values(DEMO_VESSELS.map((row) => ({ ...at, ...row })))
  await services.db.insert(scale).values(DEMO_SCALES.map((row) => ({ ...at, ...row })))
  await services.db.insert(bat).values(DEMO_BATS.map((row) => ({ ...at, ...row })))
}
