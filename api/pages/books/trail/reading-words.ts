/** How a dry mass was come by, in a potter's words. */
export const METHOD_WORDS: Readonly<Record<string, string>> = {
  dry_test: 'by a sample that was dried',
  known_dry_weighed_again: 'the dry clay was known, and what it weighs above that is water',
  slurry_density: 'by the density of the slurry',
  lot_water_content: 'as wet as the books have this clay',
  stated_water_content: 'by the water that was said',
  studio_tests: 'by the dry tests of this studio',
  body_figure: 'by the figure for the water of this clay',
  default_for_state: 'by what clay usually holds in that state',
  share_of_holding: 'its share of what was there',
  fired_weighing: 'as it weighed out of the kiln',
  loss_on_ignition: 'less what the fire takes',
  label: 'by the label',
  stated_dry_mass: 'dry as it was weighed in',
}

/** How well a figure is known. */
export const STANDING_WORDS: Readonly<Record<string, string>> = {
  measured: 'measured',
  estimated: 'from what was weighed here',
  stated: 'as said',
  assumed: 'assumed: nobody has tested it',
}

/** What stood on the scale. */
export const PURPOSE_WORDS: Readonly<Record<string, string>> = {
  clay: 'Clay',
  clay_with_plaster: 'Clay together with its bat',
  plaster: 'The bat alone',
  label: 'By the label',
  water: 'Water',
  sample: 'A sample',
  powder: 'Powder',
}
