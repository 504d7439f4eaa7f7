export { bat, body, catalogueHistory, form, scale, studio, vessel } from './schema-catalogue.ts'
export { dryTest, loss, monthClosing, request, sale } from './schema-facts.ts'
export { entry, estimate, holding, line, lot, run, weighing } from './schema-ledger.ts'
export { kilnLoad, kilnLoadRun } from './schema-kiln.ts'
export { kiln, material } from './schema-materials.ts'
export {
  firing,
  firingShare,
  glazeBatch,
  glazeRecipe,
  glazeRecipePart,
  glazing,
  materialDelivery,
} from './schema-glaze.ts'
