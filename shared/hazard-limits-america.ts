import type { HazardLimit } from './material-hazards.ts'

const EIGHT_HOURS = { averagedOver: '8 h', kind: 'average', asOf: '2026-11' } as const
const CEILING = {
  averagedOver: 'at any moment, or over 15 min where that cannot be measured',
  kind: 'ceiling',
  asOf: '2026-11',
} as const

const OSHA = {
  jurisdiction: 'US',
  authority: 'OSHA',
  name: 'Permissible exposure limit',
} as const
const TABLE_Z1 = {
  ...OSHA,
  document: '29 CFR 1910.1000, table Z-1',
  published: '1993-06-30',
} as const
const NIOSH = {
  jurisdiction: 'US',
  authority: 'NIOSH',
  name: 'Recommended exposure limit',
  document: "OSHA's Chemical Sampling Information, which prints it",
} as const
const WORKING_WEEK = {
  averagedOver: 'up to 10 h a day in a 40 h week',
  kind: 'average',
  asOf: '2026-11',
} as const

const COBALT = {
  hazard: 'cobalt',
  measured: 'cobalt metal, dust and fume, as cobalt',
  standing: 'seen',
  seenAt: 'https://www.osha.gov/dts/chemicalsampling/data/CH_229100.html',
} as const
const VANADIUM_FUME = {
  hazard: 'vanadium',
  standing: 'seen',
  seenAt: 'https://www.osha.gov/dts/chemicalsampling/data/CH_275000.html',
} as const
const MANGANESE = {
  hazard: 'manganese',
  measured: 'compounds of manganese, as manganese',
  standing: 'seen',
  seenAt:
    'https://webarchive.library.unt.edu/eot2008/20090116024004/http://www.osha.gov/dts/chemicalsampling/data/CH_250190.html',
} as const
const LEAD_STANDARD = {
  ...OSHA,
  ...EIGHT_HOURS,
  hazard: 'lead',
  measured: 'as lead',
  document: '29 CFR 1910.1025',
  published: '1978',
} as const
const CHROMIUM_STANDARD = {
  ...OSHA,
  ...EIGHT_HOURS,
  hazard: 'chromium',
  measured: 'chromium(VI), as chromium',
  document: '29 CFR 1910.1026',
  published: '2006-02-28',
} as const

/**
 * Published limits of the United States for hazards of glaze ingredients, silica apart.
 *
 * Those of a state may be lower.
 *
 * Units: milligrams in a cubic metre of air. Source: the `document` of each row.
 */
export const HAZARD_LIMITS_US: readonly HazardLimit[] = [
  {
    ...TABLE_Z1,
    ...CEILING,
    ...MANGANESE,
    milligramsPerCubicMetre: '5',
    note: 'An old figure; advice is far lower.',
  },
  {
    ...NIOSH,
    ...WORKING_WEEK,
    ...MANGANESE,
    milligramsPerCubicMetre: '1',
    published: '2009-01',
    note: 'Advice, not law.',
  },
  {
    jurisdiction: 'US',
    ...EIGHT_HOURS,
    hazard: 'manganese',
    authority: 'ACGIH',
    name: 'Threshold limit value',
    milligramsPerCubicMetre: '0.02',
    measured: 'as manganese, respirable',
    document: 'Threshold limit values, manganese',
    published: '2013',
    standing: 'second-hand',
    seenAt: 'https://studylib.net/doc/7081522/ohsa-manganese---supporting-paa',
    note: 'Advice, not law. 0.1 inhalable beside it.',
  },
  {
    ...TABLE_Z1,
    ...EIGHT_HOURS,
    hazard: 'barium',
    milligramsPerCubicMetre: '0.5',
    measured: 'soluble compounds of barium, as barium',
    standing: 'second-hand',
    seenAt: 'http://niosh.dnacih.com/nioshdbs/idlh/7440393.htm',
    note: 'Ask the authority whether barium carbonate counts as soluble.',
  },
  {
    ...LEAD_STANDARD,
    milligramsPerCubicMetre: '0.05',
    standing: 'seen',
    seenAt:
      'https://jjkellercompliancenetwork.com/regsense/29-cfr-19101025-appendix-b-employee-standard-summary',
    note: 'Lower where the day is longer than 8 h. Levels of lead in the blood count besides.',
  },
  {
    ...LEAD_STANDARD,
    name: 'Action level',
    milligramsPerCubicMetre: '0.03',
    standing: 'second-hand',
    seenAt: 'https://www.idcafe.net/what-is-the-permissible-exposure-to-lead/',
    note: 'Duties begin here.',
  },
  {
    ...OSHA,
    ...EIGHT_HOURS,
    hazard: 'cadmium',
    milligramsPerCubicMetre: '0.005',
    measured: 'cadmium and its compounds, as cadmium',
    document: '29 CFR 1910.1027(c)',
    published: '1992-09-14',
    standing: 'seen',
    seenAt: 'https://www.labor.nc.gov/subpart-m-occupational-health',
    note: '',
  },
  {
    ...CHROMIUM_STANDARD,
    milligramsPerCubicMetre: '0.005',
    standing: 'second-hand',
    seenAt:
      'https://amienvironmental.com/osha-to-target-compliance-for-hexavalent-chromium-exposures',
    note: 'For chromates and dichromates.',
  },
  {
    ...CHROMIUM_STANDARD,
    name: 'Action level',
    milligramsPerCubicMetre: '0.0025',
    standing: 'seen',
    seenAt: 'http://edocket.access.gpo.gov/cfr_2006/julqtr/29cfr1910.1026.htm',
    note: 'For chromates and dichromates. Duties begin here.',
  },
  {
    ...TABLE_Z1,
    ...EIGHT_HOURS,
    hazard: 'chromium',
    milligramsPerCubicMetre: '0.5',
    measured: 'chromium(III) compounds, as chromium',
    standing: 'second-hand',
    seenAt: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC7490536/table/tbl7',
    note: 'Not for chromates and dichromates.',
  },
  {
    ...TABLE_Z1,
    ...EIGHT_HOURS,
    ...COBALT,
    milligramsPerCubicMetre: '0.1',
    note: 'Ask the authority whether the oxide and the carbonate are meant.',
  },
  {
    ...NIOSH,
    ...WORKING_WEEK,
    ...COBALT,
    milligramsPerCubicMetre: '0.05',
    published: '2012-09-06',
    note: 'Advice, not law.',
  },
  {
    ...TABLE_Z1,
    ...EIGHT_HOURS,
    hazard: 'nickel',
    milligramsPerCubicMetre: '1',
    measured: 'nickel and its compounds, soluble or not, as nickel',
    standing: 'second-hand',
    seenAt:
      'http://www.nipera.org/WorkplaceGuide/LimitValuesAndHazardCommunication/ExposureLimits/UnitedStatesUS.aspx',
    note: '',
  },
  {
    ...TABLE_Z1,
    ...CEILING,
    hazard: 'vanadium',
    milligramsPerCubicMetre: '0.5',
    measured: 'dust of vanadium pentoxide, respirable',
    standing: 'second-hand',
    seenAt: 'https://www.cdc.gov/niosh/pel88/1314-62.html',
    note: 'Read in a comment on a lower limit that a court set aside; that the respirable dust is meant is from memory.',
  },
  {
    ...TABLE_Z1,
    ...CEILING,
    ...VANADIUM_FUME,
    milligramsPerCubicMetre: '0.1',
    measured: 'fume of vanadium pentoxide',
    note: '',
  },
  {
    ...NIOSH,
    ...CEILING,
    ...VANADIUM_FUME,
    averagedOver: '15 min',
    milligramsPerCubicMetre: '0.05',
    measured: 'as vanadium',
    published: '2012-09-06',
    note: 'Advice, not law.',
  },
]
