import type { RefusalCode } from '../shared/refusal.ts'
import { ESTIMATE_REFUSAL_KINDS } from './estimate-refusal-kinds.ts'
import { GLAZE_AND_FIRE_REFUSAL_KINDS } from './glaze-and-fire-refusal-kinds.ts'
import { NOT_FOUND_REFUSAL_KINDS } from './not-found-refusal-kinds.ts'
import { PLASTER_REFUSAL_KINDS } from './plaster-refusal-kinds.ts'
import type { ProblemKind } from './problem-kind.ts'

const COUNT_OR_REREAD =
  'Read the figure again. Where the reading is right, the books are behind: record what was left out, or count what is there.'

/** What each refusal is answered with, and what a potter can do about it. */
export const REFUSAL_KINDS: Readonly<Record<RefusalCode, ProblemKind>> = {
  ...ESTIMATE_REFUSAL_KINDS,
  ...PLASTER_REFUSAL_KINDS,
  ...GLAZE_AND_FIRE_REFUSAL_KINDS,
  ...NOT_FOUND_REFUSAL_KINDS,
  studio_must_be_named: {
    status: 400,
    title: 'The studio must be named',
    whatHappened: 'There is no studio yet, or there are several and the request did not say which.',
    whatToDo:
      'Send the header Studio-Id with the id of your studio; GET /v1/studios lists them. Where there is none, enter one by POST /v1/studios.',
  },
  name_must_be_new: {
    status: 409,
    title: 'The name or id is taken',
    whatHappened: 'Something of the same kind has that name or that id already.',
    whatToDo: 'Choose another name or id, or change the one there is by PATCH.',
  },
  key_must_keep_its_content: {
    status: 409,
    title: 'The Idempotency-Key belongs to another request',
    whatHappened: 'A key names one request. This key came before, with other content.',
    whatToDo: 'Send the new content under a new key. A retry repeats the content to the letter.',
  },
  date_must_not_be_in_the_future: {
    status: 422,
    title: 'The date lies ahead',
    whatHappened: 'An entry says what has happened; its moment lies after now.',
    whatToDo: 'Correct the moment and its offset, or leave happenedAt out to mean now.',
  },
  month_must_be_open: {
    status: 409,
    title: 'The month is closed',
    whatHappened: 'The books of that month are closed, and nothing more is dated into them.',
    whatToDo:
      'Date the entry into an open month. What was wrong in a closed month is corrected now.',
  },
  month_must_be_over: {
    status: 422,
    title: 'The month is not over',
    whatHappened: 'A month is closed when it is over on the studio’s wall.',
    whatToDo: 'Close it on the first of the next month, or close an earlier one.',
  },
  entry_must_not_be_reversed_already: {
    status: 409,
    title: 'The entry was reversed already',
    whatHappened: 'An entry is taken back once.',
    whatToDo:
      'Look at the entry: reversedByEntryId names the reversal. Post again what is missing.',
  },
  entry_must_not_be_a_reversal: {
    status: 422,
    title: 'A reversal is not reversed',
    whatHappened: 'The entry to be corrected is itself a reversal.',
    whatToDo: 'Post what happened once more instead.',
  },
  closed_month_must_stay_closed: {
    status: 422,
    title: 'A closed month stays closed',
    whatHappened: 'The entry to be corrected is the closing of a month.',
    whatToDo: 'Correct what was wrong in the month now, dated into an open one.',
  },
  reversal_must_find_what_it_takes_back: {
    status: 409,
    title: 'What it moved has gone on',
    whatHappened:
      'The clay, pieces or cost of that entry have moved on since, and cannot come back.',
    whatToDo: 'Reverse the later entries first, newest first, or count what is there now.',
  },
  bodies_must_not_mix_unless_declared: {
    status: 422,
    title: 'Two clays would meet',
    whatHappened: 'Clay of one body was to join clay of another, and nobody said that it should.',
    whatToDo:
      'Use another vessel. Where it is on purpose, enter a body with isBlend true and name it in blendBodyId.',
  },
  fired_clay_must_not_return_to_scrap: {
    status: 422,
    title: 'Fired clay does not slake',
    whatHappened: 'Shards were to go into a bucket of scrap.',
    whatToDo: 'Leave vesselId and reading out: shards go to waste.',
  },
  vessel_must_be_another: {
    status: 422,
    title: 'It would go into the vessel it comes from',
    whatHappened: 'The vessel that gives and the vessel that takes are the same one.',
    whatToDo: 'Name the vessel that it was poured into, or leave it out where it went away.',
  },
  holding_must_be_inside: {
    status: 422,
    title: 'That is not in the studio',
    whatHappened: 'The holding stands for the world outside: supplier, tap, air, fire, customer.',
    whatToDo: 'Name a holding inside, as GET /v1/reports/stock lists them.',
  },
  lot_must_be_of_the_body: {
    status: 422,
    title: 'The sample is of other clay than the lot',
    whatHappened: 'A sample was to set a lot right that is of another clay body, or no such clay.',
    whatToDo: 'Name the body that the lot is of, or leave the lot out to test the body.',
  },
  kiln_load_must_be_in_the_kiln: {
    status: 409,
    title: 'The load is out of the kiln',
    whatHappened: 'The load was unloaded already, or its pots were taken out again without a fire.',
    whatToDo:
      'Look at the kiln page for what is in a kiln now; load it again where pots went back in.',
  },
  stage_must_hold_the_pieces: {
    status: 409,
    title: 'Fewer pieces are at that stage',
    whatHappened: 'More pieces were named than the run has at that stage.',
    whatToDo: 'Record first how they came there (firing, grading), or count them.',
  },
  gross_must_not_be_below_tare: {
    status: 422,
    title: 'The full vessel weighs less than the empty one',
    whatHappened: 'The gross reading is below the tare.',
    whatToDo: 'Look at both readings, their units, and which vessel was named.',
  },
  reading_must_be_above_zero: {
    status: 422,
    title: 'The reading leaves nothing',
    whatHappened: 'Less the vessel or tin, the reading is zero.',
    whatToDo: 'Weigh again. Nothing is not weighed: leave the reading out.',
  },
  reading_must_be_within_scale_capacity: {
    status: 422,
    title: 'The scale cannot carry that much',
    whatHappened: 'The reading exceeds what the named scale can weigh.',
    whatToDo: 'Name the scale that was used, or weigh in parts.',
  },
  reading_must_not_be_below_known_dry: {
    status: 422,
    title: 'Lighter than its own dry clay',
    whatHappened: 'The reading is below the dry clay that is known to be in it.',
    whatToDo: COUNT_OR_REREAD,
  },
  water_content_must_be_below_one: {
    status: 422,
    title: 'A water content leaves some clay',
    whatHappened: 'On the wet basis the content is not between 0 and 1.',
    whatToDo: 'Say a fraction, 0.21 for 21 %, or name the dry basis.',
  },
  sample_must_not_dry_heavier: {
    status: 422,
    title: 'The sample weighs more dry than wet',
    whatHappened: 'Drying takes water away, so the dry reading is the smaller one.',
    whatToDo: 'Look whether the two readings were exchanged.',
  },
  fire_must_leave_most_of_the_clay: {
    status: 422,
    title: 'The fire would have taken most of the clay',
    whatHappened: 'The fired pieces weigh less than seven tenths of the dry clay that went in.',
    whatToDo:
      'Look at the unit of the reading, and whether all pieces were weighed. What broke is lost after the fire, in an act of its own.',
  },
  density_must_exceed_water: {
    status: 422,
    title: 'Lighter than water',
    whatHappened: 'The slurry weighs less than as much water.',
    whatToDo: 'Look at the volume, at the tare of the jug, and for air in the slurry.',
  },
  density_must_be_below_solids: {
    status: 422,
    title: 'Heavier than solid clay',
    whatHappened: 'The slurry weighs more than as much solid clay.',
    whatToDo: 'Look at the volume and its unit, and at the body’s grain density.',
  },
  pieces_must_be_enough: {
    status: 409,
    title: 'There are not so many',
    whatHappened: 'More pieces or bags were to leave than the books have there.',
    whatToDo: COUNT_OR_REREAD,
  },
  clay_must_be_enough: {
    status: 409,
    title: 'There is not so much clay',
    whatHappened: 'More clay was to leave than the books have there.',
    whatToDo: COUNT_OR_REREAD,
  },
  water_must_be_enough: {
    status: 409,
    title: 'There is not so much water',
    whatHappened: 'More water was to leave than the books have there.',
    whatToDo: COUNT_OR_REREAD,
  },
  act_must_move_something: {
    status: 409,
    title: 'Nothing was there to move',
    whatHappened: 'By the books there was nothing that this act could move.',
    whatToDo: COUNT_OR_REREAD,
  },
  parts_must_not_exceed_the_whole: {
    status: 422,
    title: 'The parts exceed the whole',
    whatHappened: 'What came out is more than what went in.',
    whatToDo: 'Look at the readings, their units and their tares.',
  },
  pieces_must_have_clay: {
    status: 409,
    title: 'Pieces would be left without clay',
    whatHappened: 'All the clay of some pieces was to be taken, and the pieces were to stay.',
    whatToDo: 'Look at the reading and its unit. Where the pieces are gone too, lose them.',
  },
  holding_must_not_strand_cost: {
    status: 409,
    title: 'Cost without clay',
    whatHappened: 'A cost would be left where there is no clay to carry it.',
    whatToDo: COUNT_OR_REREAD,
  },
  holding_must_not_go_negative: {
    status: 409,
    title: 'A holding would go below zero',
    whatHappened: 'More was to leave a holding than it has.',
    whatToDo: COUNT_OR_REREAD,
  },
  holding_must_not_have_been_negative: {
    status: 409,
    title: 'It was not there yet',
    whatHappened: 'At the moment that was named, more was to leave a holding than it had then.',
    whatToDo:
      'Date it after what brought the clay or the pieces there, or record first what was left out, dated before it.',
  },
}
