import { describe, expect, test } from 'vitest'
import { CautionBox } from '../../api/pages/act-form.tsx'
import { present } from '../../shared/assert.ts'
import { hazardCautions } from '../../shared/hazard-cautions.ts'
import { silicaCautions } from '../../shared/silica.ts'

const shown = hazardCautions({
  materials: [{ name: 'manganese dioxide', statedHazards: [{ hazard: 'manganese' }] }],
  isDry: true,
  jurisdiction: 'US',
})

describe('the box of a caution', () => {
  test('begins with what harms, and tells a ceiling from an average', () => {
    const text = String(CautionBox({ caution: present(shown[0], 'manganese is cautioned of') }))
    expect(text).toContain('aria-label="Manganese"')
    expect(text).toContain('<strong>Manganese.</strong>')
    expect(text).toMatch(/5 mg\/m³ at any moment/)
    expect(text).toMatch(/1 mg\/m³ over up to 10 h a day/)
    expect(text).toContain('data sheet, local law and licensed practice come first')
  })

  test('of clay is about dust, as it always was', () => {
    const [caution] = silicaCautions({
      handlesDryClay: true,
      dryAct: undefined,
      waterContentWetBasis: undefined,
      dustThresholdWetBasis: undefined,
      jurisdiction: 'GB',
    })
    const text = String(CautionBox({ caution: present(caution, 'dry clay is cautioned of') }))
    expect(text).toContain('aria-label="Dust"')
    expect(text).toMatch(/0\.1 mg\/m³ over 8 h \(Workplace exposure limit/)
    expect(text).toContain('Our own house figure')
  })
})
