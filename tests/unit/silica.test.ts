import { describe, expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import {
  DRY_ACTS,
  HOUSE_DUST_THRESHOLD_WET_BASIS,
  JURISDICTIONS,
  SILICA_LIMITS,
  silicaCautions,
} from '../../shared/silica.ts'
import type { DustyAct } from '../../shared/silica.ts'

const nothingDry: DustyAct = {
  handlesDryClay: false,
  dryAct: undefined,
  waterContentWetBasis: decimal('0.2'),
  dustThresholdWetBasis: undefined,
  jurisdiction: 'GB',
}
const everyCaution = JURISDICTIONS.flatMap((jurisdiction) =>
  [...DRY_ACTS, 'shaking out an apron'].flatMap((dryAct) =>
    silicaCautions({ ...nothingDry, handlesDryClay: true, dryAct, jurisdiction }),
  ),
)

describe('a caution', () => {
  test('stays away when nothing is dry, or nothing is known of the water', () => {
    expect(silicaCautions(nothingDry)).toEqual([])
    expect(silicaCautions({ ...nothingDry, waterContentWetBasis: undefined })).toEqual([])
    expect(
      silicaCautions({ ...nothingDry, waterContentWetBasis: HOUSE_DUST_THRESHOLD_WET_BASIS }),
    ).toEqual([])
  })

  test('comes for clay that is said to be dry', () => {
    expect(silicaCautions({ ...nothingDry, handlesDryClay: true })).toHaveLength(1)
  })

  test('comes for clay that is drier than the threshold, and says both figures', () => {
    const [caution] = silicaCautions({ ...nothingDry, waterContentWetBasis: decimal('0.02') })
    expect(caution?.why).toContain('2.0 %')
    expect(caution?.why).toContain('5.0 %')
  })

  test('goes by the threshold that the studio has set for the body', () => {
    const act = { ...nothingDry, waterContentWetBasis: decimal('0.06') }
    expect(silicaCautions(act)).toEqual([])
    const [caution] = silicaCautions({ ...act, dustThresholdWetBasis: decimal('0.08') })
    expect(caution?.houseFigure.waterContentWetBasis).toBe('0.08')
    expect(caution?.houseFigure.label).toContain('own figure')
  })

  test('comes for a dry act on wet clay, and for the clay besides when that is dry too', () => {
    const sweeping = { ...nothingDry, dryAct: 'sweeping' }
    expect(silicaCautions(sweeping)).toHaveLength(1)
    expect(silicaCautions({ ...sweeping, handlesDryClay: true })).toHaveLength(2)
  })

  test('shows the limits of the place, and all of them for a place we do not know', () => {
    const limits = (jurisdiction: DustyAct['jurisdiction']) =>
      silicaCautions({ ...nothingDry, handlesDryClay: true, jurisdiction })[0]?.limits
    expect(limits('GB')?.map(({ jurisdiction }) => jurisdiction)).toEqual(['GB'])
    expect(limits('US')).toHaveLength(4)
    expect(limits('other')).toEqual(SILICA_LIMITS)
  })

  test('says what to do instead, labels the house figure and defers to local law', () => {
    for (const caution of everyCaution) {
      expect(caution.instead.length).toBeGreaterThan(1)
      expect(caution.houseFigure.label).toContain('no published moisture threshold')
      expect(caution.deferTo).toContain('Local law and licensed practice come first')
    }
  })

  test('never says that a place or an act is safe', () => {
    // The names of two authorities hold the word.
    const spoken = everyCaution.flatMap(({ limits, ...rest }) => [
      JSON.stringify(rest),
      ...limits.map(({ note }) => note),
    ])
    expect(spoken.filter((words) => /\bsafe(ly|ty)?\b/i.test(words))).toEqual([])
  })

  test('is plain text throughout, ready for JSON', () => {
    expect(JSON.parse(JSON.stringify(everyCaution))).toEqual(everyCaution)
  })
})

test('nobody is told to wet pots that go into the fire', () => {
  const [caution] = silicaCautions({
    handlesDryClay: true,
    isWare: true,
    dryAct: undefined,
    waterContentWetBasis: undefined,
    dustThresholdWetBasis: undefined,
    jurisdiction: 'GB',
  })
  expect(caution?.instead.join()).not.toMatch(/into water|mist it/)
  expect(caution?.instead.join()).toContain('respirator')
})
