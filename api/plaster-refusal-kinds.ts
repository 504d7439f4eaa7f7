import type { RefusalCode } from '../shared/refusal.ts'
import type { ProblemKind } from './problem-kind.ts'

type PlasterCode = Extract<
  RefusalCode,
  'bat_must_be_empty' | 'bat_must_be_another' | 'lot_must_be_a_load' | 'too_dry_must_be_below_ready'
>

/** What is said where something cannot be so on plaster. */
export const PLASTER_REFUSAL_KINDS: Readonly<Record<PlasterCode, ProblemKind>> = {
  bat_must_be_empty: {
    status: 409,
    title: 'The bat still carries a load',
    whatHappened: 'By the books a load lies on that bat.',
    whatToDo: 'Lift the load first, or pour on another bat.',
  },
  bat_must_be_another: {
    status: 422,
    title: 'It would be moved to the bat it lies on',
    whatHappened: 'The bat that was named is the one that the slab lies on already.',
    whatToDo: 'Name another bat, dry and empty. To turn the slab over, weigh it and say turned.',
  },
  lot_must_be_a_load: {
    status: 422,
    title: 'That clay never lay on plaster',
    whatHappened: 'The lot that was named is no load of a bat.',
    whatToDo: 'Name a load, as GET /v1/lots?kind=load lists them.',
  },
  too_dry_must_be_below_ready: {
    status: 422,
    title: 'Too dry must be drier than ready',
    whatHappened: 'A clay’s tooDryWaterContentWetBasis is not below its readyWaterContentWetBasis.',
    whatToDo:
      'Say both as fractions of the wet mass, the drier one as too dry: 0.225 and 0.20. Null takes the usual figure.',
  },
}
