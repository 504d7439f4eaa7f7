import type { HazardLimit } from './material-hazards.ts'

const MEMORY = { standing: 'from memory', seenAt: null } as const
const EIGHT_HOURS = { averagedOver: '8 h', kind: 'average', asOf: '2026-11' } as const

const EH40 = {
  ...EIGHT_HOURS,
  jurisdiction: 'GB',
  authority: 'Health and Safety Executive',
  name: 'Workplace exposure limit',
  document: 'EH40/2005 Workplace exposure limits, fourth edition',
  published: '2020-01-17',
} as const

/** Nickel of EH40, read in a guide of the nickel trade. */
const EH40_NICKEL = {
  ...EH40,
  hazard: 'nickel',
  standing: 'second-hand',
  seenAt:
    'http://www.nipera.org/WorkplaceGuide/LimitValuesAndHazardCommunication/ExposureLimits/TheEuropeanUnionEU/UnitedKingdomUK.aspx',
  note: 'Read in a trade guide older than the document; that the fourth edition keeps it is from memory.',
} as const

/**
 * Published limits of Great Britain for hazards of glaze ingredients, silica apart.
 *
 * Units: milligrams in a cubic metre of air. Source: the `document` of each row.
 */
export const HAZARD_LIMITS_GB: readonly HazardLimit[] = [
  {
    ...EH40,
    ...MEMORY,
    hazard: 'manganese',
    milligramsPerCubicMetre: '0.2',
    measured: 'manganese and its inorganic compounds, as manganese, inhalable',
    note: 'In force since 2018.',
  },
  {
    ...EH40,
    hazard: 'manganese',
    milligramsPerCubicMetre: '0.05',
    measured: 'manganese and its inorganic compounds, as manganese, respirable',
    standing: 'second-hand',
    seenAt:
      'https://www.safety-management.co.uk/news/welders-reduced-exposure-limits-for-manganese/',
    note: 'In force since 2018.',
  },
  {
    ...EH40,
    ...MEMORY,
    hazard: 'barium',
    milligramsPerCubicMetre: '0.5',
    measured: 'soluble compounds of barium, as barium',
    note: 'Ask the authority whether barium carbonate counts as soluble.',
  },
  {
    ...EIGHT_HOURS,
    hazard: 'lead',
    jurisdiction: 'GB',
    authority: 'Health and Safety Executive',
    name: 'Occupational exposure limit',
    milligramsPerCubicMetre: '0.15',
    measured: 'lead other than its alkyls, as lead',
    document: 'Control of Lead at Work Regulations 2002, regulation 2',
    published: '2002-11-21',
    standing: 'second-hand',
    seenAt:
      'https://www.lrdpublications.org.uk/printarticle.php?id=idm139817427860400&iss=2203&pub=bk',
    note: 'Read in a handbook of law of October 2024. Levels of lead in the blood count besides.',
  },
  {
    ...EH40,
    ...MEMORY,
    hazard: 'cadmium',
    milligramsPerCubicMetre: '0.025',
    measured:
      'cadmium and its compounds, without the fume of the oxide and the sulphide, as cadmium',
    note: '',
  },
  {
    ...EH40,
    ...MEMORY,
    hazard: 'cadmium',
    milligramsPerCubicMetre: '0.03',
    measured: 'cadmium sulphide and its pigments, as cadmium, respirable',
    note: '',
  },
  {
    ...EH40,
    ...MEMORY,
    hazard: 'chromium',
    milligramsPerCubicMetre: '0.5',
    measured: 'chromium(III) compounds, as chromium',
    note: 'Not for chromates and dichromates.',
  },
  {
    ...EH40,
    hazard: 'cobalt',
    milligramsPerCubicMetre: '0.1',
    measured: 'cobalt and its compounds, as cobalt',
    standing: 'second-hand',
    seenAt: 'http://www.hse.gov.uk/pubns/msa17.htm',
    note: "Read in the authority's leaflet MSA17, older than the document; that the fourth edition keeps it is from memory.",
  },
  {
    ...EH40_NICKEL,
    milligramsPerCubicMetre: '0.5',
    measured: 'nickel and its compounds that do not dissolve in water, as nickel',
  },
  {
    ...EH40_NICKEL,
    milligramsPerCubicMetre: '0.1',
    measured: 'compounds of nickel that dissolve in water, as nickel',
  },
  {
    ...EH40,
    ...MEMORY,
    hazard: 'vanadium',
    milligramsPerCubicMetre: '0.05',
    measured: 'vanadium pentoxide',
    note: '',
  },
]

const UNION = {
  ...EIGHT_HOURS,
  jurisdiction: 'EU',
  authority: 'European Union',
  name: 'Occupational exposure limit',
} as const
const INDICATIVE = {
  ...UNION,
  name: 'Indicative occupational exposure limit value',
} as const
const MANGANESE = {
  ...INDICATIVE,
  ...MEMORY,
  hazard: 'manganese',
  document: 'Commission Directive (EU) 2017/164',
  published: '2017-01-31',
  note: 'That manganese is in the list was seen, the figures are from memory. A member state sets its own.',
} as const
const NICKEL = {
  ...UNION,
  hazard: 'nickel',
  document: 'Directive 2004/37/EC, annex III, as amended by Directive (EU) 2022/431',
  published: '2022-03-09',
  standing: 'second-hand',
  seenAt: 'https://www.cedesasrl.com/esposizione-professionale-a-composti-del-nichel/',
  note: 'Since 18 January 2025. A member state may set a lower one.',
} as const
const CHROMIUM_DIRECTIVE = {
  document: 'Directive 2004/37/EC, annex III, as amended by Directive (EU) 2017/2398',
  published: '2017-12-12',
} as const

/**
 * Published limits of the European Union for hazards of glaze ingredients, silica apart.
 *
 * Units: milligrams in a cubic metre of air. Source: the `document` of each row.
 */
export const HAZARD_LIMITS_EU: readonly HazardLimit[] = [
  { ...MANGANESE, milligramsPerCubicMetre: '0.2', measured: 'as manganese, inhalable' },
  { ...MANGANESE, milligramsPerCubicMetre: '0.05', measured: 'as manganese, respirable' },
  {
    ...INDICATIVE,
    hazard: 'barium',
    milligramsPerCubicMetre: '0.5',
    measured: 'soluble compounds of barium, as barium',
    document: 'Commission Directive 2006/15/EC',
    published: '2006-02-07',
    standing: 'second-hand',
    seenAt: 'https://www.chemicalbook.com/Article/Exposure-Sources-Risk-Assessments-of-Barium.htm',
    note: 'Ask the authority whether barium carbonate counts as soluble.',
  },
  {
    ...UNION,
    hazard: 'lead',
    milligramsPerCubicMetre: '0.03',
    measured: 'lead and its inorganic compounds, as lead, inhalable',
    document: 'Directive 2004/37/EC, annex III, as amended by Directive (EU) 2024/869',
    published: '2024-03-13',
    standing: 'second-hand',
    seenAt:
      'https://chemical.chemlinked.com/news/chemical-news/eu-imposes-stricter-occupational-exposure-limits-for-lead-and-its-inorganic-compounds',
    note: 'That the inhalable part is meant is from memory. Levels of lead in the blood count besides.',
  },
  {
    ...UNION,
    hazard: 'cadmium',
    milligramsPerCubicMetre: '0.001',
    measured: 'cadmium and its inorganic compounds, inhalable',
    document: 'Directive 2004/37/EC, annex III, as amended by Directive (EU) 2019/983',
    published: '2019-06-05',
    standing: 'second-hand',
    seenAt: 'https://www.eumonitor.eu/9353000/1/j4nvirkkkr58fyw_j9vvik7m1c3gyxp/vkn9gcmo27vi',
    note: 'Until 11 July 2027 a member state may keep 0.004. Read in a copy of the annex.',
  },
  {
    ...UNION,
    ...CHROMIUM_DIRECTIVE,
    hazard: 'chromium',
    milligramsPerCubicMetre: '0.005',
    measured: 'chromium(VI) compounds, as chromium',
    standing: 'seen',
    seenAt: 'https://reachlex.eu/en/carcinogens-mutagens-reprotoxic/annex-iii',
    note: 'For chromates and dichromates. Since 17 January 2025.',
  },
  {
    ...INDICATIVE,
    ...MEMORY,
    hazard: 'chromium',
    milligramsPerCubicMetre: '2',
    measured: 'inorganic chromium(II) and chromium(III) compounds, as chromium',
    document: 'Commission Directive 2006/15/EC',
    published: '2006-02-07',
    note: 'Not for chromates and dichromates.',
  },
  { ...NICKEL, milligramsPerCubicMetre: '0.01', measured: 'as nickel, respirable' },
  { ...NICKEL, milligramsPerCubicMetre: '0.05', measured: 'as nickel, inhalable' },
]
