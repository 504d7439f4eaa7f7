import type { RefusalCode } from '../shared/refusal.ts'
import type { ProblemKind } from './problem-kind.ts'

type GlazeAndFireCode = Extract<
  RefusalCode,
  | 'material_must_be_of_the_kind'
  | 'material_must_be_told_as_it_is_kept'
  | 'material_must_be_enough'
  | 'energy_must_be_told'
  | 'glaze_per_piece_must_be_known'
>

/** What is said where something cannot be so with materials, glaze or a fire. */
export const GLAZE_AND_FIRE_REFUSAL_KINDS: Readonly<Record<GlazeAndFireCode, ProblemKind>> = {
  material_must_be_of_the_kind: {
    status: 422,
    title: 'That material is of another kind',
    whatHappened: 'The material that was named is not what this act works on.',
    whatToDo: 'Name a material of the kind that the detail says; GET /v1/materials lists them.',
  },
  material_must_be_told_as_it_is_kept: {
    status: 422,
    title: 'That material is kept otherwise',
    whatHappened:
      'A mass was said of what is counted, a number of what is weighed, packs of which nothing says what they hold, the usual packing of a form that has none, or one material twice in a delivery.',
    whatToDo:
      'Weigh what is kept by mass and count what is kept by count; GET /v1/materials says which it is. Give it a packSize to tell it in packs, and the form its packing to sell it packed as usual. Name each material of a delivery once.',
  },
  material_must_be_enough: {
    status: 409,
    title: 'There is not so much of that material',
    whatHappened: 'More of a material was to leave than the books have there.',
    whatToDo: 'Enter the delivery that brought it, or count what is there; then tell this again.',
  },
  energy_must_be_told: {
    status: 422,
    title: 'Nothing says what this fire took',
    whatHappened:
      'No energy was told, and the kiln has neither a past firing nor a rated power and hours to go by, or no price.',
    whatToDo:
      'Read the meter, weigh the gas, say the kilowatt hours, or give the kiln its ratedKilowatts, hours and price.',
  },
  glaze_per_piece_must_be_known: {
    status: 422,
    title: 'Nothing says how much glaze a piece of that form takes',
    whatHappened:
      'No glazing of that form was weighed yet, and the form has no glazeGramsPerPiece.',
    whatToDo:
      'Weigh the bucket or the pieces before and after, or give the form its glazeGramsPerPiece.',
  },
}
