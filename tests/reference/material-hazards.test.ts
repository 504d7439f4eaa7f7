import { describe, expect, test } from 'vitest'
import { HAZARD_LIMITS } from '../../shared/hazard-limits.ts'
import { SILICA_LIMITS } from '../../shared/silica.ts'

/** Place, hazard, authority and name, part of what is measured, mg/m³; then where it stands. */
const PUBLISHED = [
  {
    row: ['GB', 'manganese', 'exposure limit', 'inhalable', '0.2'],
    source: 'EH40/2005, 4th ed.',
    standing: 'from memory',
  },
  {
    row: ['GB', 'manganese', 'exposure limit', 'respirable', '0.05'],
    source: 'EH40/2005; safety-management.co.uk',
    standing: 'second-hand',
  },
  {
    row: ['GB', 'barium', 'exposure limit', 'soluble', '0.5'],
    source: 'EH40/2005, 4th ed.',
    standing: 'from memory',
  },
  {
    row: ['GB', 'lead', 'exposure limit', 'alkyls', '0.15'],
    source: 'Control of Lead at Work Regulations 2002; lrdpublications.org.uk',
    standing: 'second-hand',
  },
  {
    row: ['GB', 'cadmium', 'exposure limit', 'without the fume', '0.025'],
    source: 'EH40/2005, 4th ed.',
    standing: 'from memory',
  },
  {
    row: ['GB', 'cadmium', 'exposure limit', 'sulphide and its pigments', '0.03'],
    source: 'EH40/2005, 4th ed.',
    standing: 'from memory',
  },
  {
    row: ['GB', 'chromium', 'exposure limit', 'chromium(III)', '0.5'],
    source: 'EH40/2005, 4th ed.',
    standing: 'from memory',
  },
  {
    row: ['GB', 'cobalt', 'exposure limit', 'as cobalt', '0.1'],
    source: 'hse.gov.uk/pubns/msa17.htm, older',
    standing: 'second-hand',
  },
  {
    row: ['GB', 'nickel', 'exposure limit', 'do not dissolve', '0.5'],
    source: 'nipera.org, older',
    standing: 'second-hand',
  },
  {
    row: ['GB', 'nickel', 'exposure limit', 'that dissolve in water', '0.1'],
    source: 'nipera.org, older',
    standing: 'second-hand',
  },
  {
    row: ['GB', 'vanadium', 'exposure limit', 'pentoxide', '0.05'],
    source: 'EH40/2005, 4th ed.',
    standing: 'from memory',
  },
  {
    row: ['US', 'manganese', 'Permissible', 'as manganese', '5'],
    source: 'osha.gov Chemical Sampling Information',
    standing: 'seen',
  },
  {
    row: ['US', 'manganese', 'Recommended', 'as manganese', '1'],
    source: 'osha.gov Chemical Sampling Information',
    standing: 'seen',
  },
  {
    row: ['US', 'manganese', 'Threshold', 'respirable', '0.02'],
    source: 'studylib.net copy of an OSHA sheet',
    standing: 'second-hand',
  },
  {
    row: ['US', 'barium', 'Permissible', 'soluble', '0.5'],
    source: 'NIOSH documentation, dnacih.com copy',
    standing: 'second-hand',
  },
  {
    row: ['US', 'lead', 'Permissible', 'as lead', '0.05'],
    source: '29 CFR 1910.1025, appendix B, a copy',
    standing: 'seen',
  },
  {
    row: ['US', 'lead', 'Action level', 'as lead', '0.03'],
    source: 'idcafe.net',
    standing: 'second-hand',
  },
  {
    row: ['US', 'cadmium', 'Permissible', 'as cadmium', '0.005'],
    source: '29 CFR 1910.1027(c), labor.nc.gov',
    standing: 'seen',
  },
  {
    row: ['US', 'chromium', 'Permissible', 'chromium(VI)', '0.005'],
    source: '29 CFR 1910.1026(c), quoted by amienvironmental.com',
    standing: 'second-hand',
  },
  {
    row: ['US', 'chromium', 'Action level', 'chromium(VI)', '0.0025'],
    source: '29 CFR 1910.1026(b), edocket.access.gpo.gov',
    standing: 'seen',
  },
  {
    row: ['US', 'chromium', 'Permissible', 'chromium(III)', '0.5'],
    source: 'PMC7490536, table 7',
    standing: 'second-hand',
  },
  {
    row: ['US', 'cobalt', 'Permissible', 'as cobalt', '0.1'],
    source: 'osha.gov Chemical Sampling Information',
    standing: 'seen',
  },
  {
    row: ['US', 'cobalt', 'Recommended', 'as cobalt', '0.05'],
    source: 'osha.gov Chemical Sampling Information',
    standing: 'seen',
  },
  {
    row: ['US', 'nickel', 'Permissible', 'as nickel', '1'],
    source: 'nipera.org',
    standing: 'second-hand',
  },
  {
    row: ['US', 'vanadium', 'Permissible', 'dust', '0.5'],
    source: 'cdc.gov/niosh/pel88/1314-62.html',
    standing: 'second-hand',
  },
  {
    row: ['US', 'vanadium', 'Permissible', 'fume', '0.1'],
    source: 'osha.gov Chemical Sampling Information',
    standing: 'seen',
  },
  {
    row: ['US', 'vanadium', 'Recommended', 'as vanadium', '0.05'],
    source: 'osha.gov Chemical Sampling Information',
    standing: 'seen',
  },
  {
    row: ['EU', 'manganese', 'Indicative', 'inhalable', '0.2'],
    source: 'Directive (EU) 2017/164',
    standing: 'from memory',
  },
  {
    row: ['EU', 'manganese', 'Indicative', 'respirable', '0.05'],
    source: 'Directive (EU) 2017/164',
    standing: 'from memory',
  },
  {
    row: ['EU', 'barium', 'Indicative', 'soluble', '0.5'],
    source: 'Directive 2006/15/EC; chemicalbook.com',
    standing: 'second-hand',
  },
  {
    row: ['EU', 'lead', 'exposure limit', 'inhalable', '0.03'],
    source: 'Directive (EU) 2024/869; chemlinked.com',
    standing: 'second-hand',
  },
  {
    row: ['EU', 'cadmium', 'exposure limit', 'inhalable', '0.001'],
    source: 'Directive (EU) 2019/983; eumonitor.eu',
    standing: 'second-hand',
  },
  {
    row: ['EU', 'chromium', 'exposure limit', 'chromium(VI)', '0.005'],
    source: 'Directive 2004/37/EC, annex III, reachlex.eu',
    standing: 'seen',
  },
  {
    row: ['EU', 'chromium', 'Indicative', 'chromium(III)', '2'],
    source: 'Directive 2006/15/EC',
    standing: 'from memory',
  },
  {
    row: ['EU', 'nickel', 'exposure limit', 'respirable', '0.01'],
    source: 'Directive (EU) 2022/431; cedesasrl.com',
    standing: 'second-hand',
  },
  {
    row: ['EU', 'nickel', 'exposure limit', 'inhalable', '0.05'],
    source: 'Directive (EU) 2022/431; cedesasrl.com',
    standing: 'second-hand',
  },
] as const

describe('the limits that we show for hazards of ingredients', () => {
  test.each(PUBLISHED)('$row ($standing: $source)', ({ row, standing }) => {
    const [jurisdiction, hazard, name, measured, limit] = row
    const shown = HAZARD_LIMITS.filter(
      (one) =>
        one.jurisdiction === jurisdiction &&
        one.hazard === hazard &&
        one.name.includes(name) &&
        one.measured.includes(measured) &&
        one.milligramsPerCubicMetre === limit,
    )
    expect(shown).toMatchObject([{ standing }])
  })

  test('are no others than these and those for silica', () => {
    expect(HAZARD_LIMITS).toHaveLength(PUBLISHED.length + SILICA_LIMITS.length)
    const ofSilica = HAZARD_LIMITS.filter(({ hazard }) => hazard === 'silica')
    expect(ofSilica).toMatchObject(SILICA_LIMITS)
  })

  test('lack neither authority nor date, and say where they were seen or that it is memory', () => {
    for (const limit of HAZARD_LIMITS) {
      expect(limit.authority).not.toBe('')
      expect(limit.document).not.toBe('')
      expect(limit.measured).not.toBe('')
      expect(limit.averagedOver).not.toBe('')
      expect(limit.milligramsPerCubicMetre).toMatch(/^\d+(\.\d+)?$/)
      expect(limit.asOf).toMatch(/^\d{4}(-\d{2}){1,2}$/)
      if (limit.hazard === 'silica') continue
      expect(limit.published).toMatch(/^\d{4}(-\d{2}){0,2}$/)
      if (limit.standing === 'from memory') expect(limit.seenAt).toBeNull()
      else expect(limit.seenAt).toMatch(/^https?:\/\//)
    }
  })

  test('are ceilings only where the authority calls them so', () => {
    const ceilings = HAZARD_LIMITS.filter(({ kind }) => kind === 'ceiling')
    expect(ceilings.map(({ hazard, authority }) => `${authority} ${hazard}`).sort()).toEqual([
      'NIOSH vanadium',
      'OSHA manganese',
      'OSHA vanadium',
      'OSHA vanadium',
    ])
  })
})
