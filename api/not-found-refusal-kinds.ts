import type { RefusalCode } from '../shared/refusal.ts'
import type { ProblemKind } from './problem-kind.ts'

type NotFoundCode = Extract<RefusalCode, `${string}_not_found`>

const NOT_HERE = 'Look the id up in the list of its kind, or enter the thing first.'

/** What is said where something that was named is not there. */
export const NOT_FOUND_REFUSAL_KINDS: Readonly<Record<NotFoundCode, ProblemKind>> = {
  studio_not_found: notFound('studio'),
  body_not_found: notFound('clay body'),
  form_not_found: notFound('form'),
  vessel_not_found: notFound('vessel'),
  scale_not_found: notFound('scale'),
  bat_not_found: notFound('plaster bat'),
  lot_not_found: notFound('lot of clay'),
  run_not_found: notFound('run of pieces'),
  material_not_found: notFound('material'),
  kiln_not_found: notFound('kiln'),
  glaze_recipe_not_found: notFound('recipe'),
  holding_not_found: notFound('holding'),
  entry_not_found: notFound('entry'),
  month_not_found: notFound('month'),
  kiln_load_not_found: notFound('kiln load'),
}

function notFound(thing: string): ProblemKind {
  return {
    status: 404,
    title: `No such ${thing}`,
    whatHappened: `There is no ${thing} of that id in this studio.`,
    whatToDo: NOT_HERE,
  }
}
