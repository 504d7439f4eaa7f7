import { describe, expect, test } from 'vitest'
import { hazardCautions } from '../../shared/hazard-cautions.ts'
import type { MaterialHandling } from '../../shared/hazard-cautions.ts'
import { HAZARD_LIMITS, LIMITS_LEFT_OUT, limitsOfHazard } from '../../shared/hazard-limits.ts'
import {
  CARE_WITH_FUME,
  CARE_WITH_INGREDIENTS,
  CARE_WITH_POWDERS,
  HAZARD_CODES,
  HAZARDS,
  LIMIT_JURISDICTIONS,
  hazardOf,
  hazardsHintedBy,
} from '../../shared/material-hazards.ts'
import { JURISDICTIONS } from '../../shared/silica.ts'

const black = { name: 'manganese dioxide', statedHazards: [{ hazard: 'manganese' as const }] }
const handled: MaterialHandling = { materials: [black], isDry: true, jurisdiction: 'GB' }
const everything: MaterialHandling = {
  ...handled,
  materials: [{ name: 'house blend', statedHazards: HAZARD_CODES.map((hazard) => ({ hazard })) }],
}

describe('every hazard', () => {
  test('has its words, and a caution before the press wherever the studio is', () => {
    expect(HAZARDS.map(({ code }) => code)).toEqual(HAZARD_CODES)
    for (const jurisdiction of JURISDICTIONS) {
      const cautions = hazardCautions({ ...everything, jurisdiction })
      expect(cautions).toHaveLength(HAZARD_CODES.length)
      for (const { why, instead, hazard, deferTo } of cautions) {
        expect(why).toContain('House blend holds')
        expect(hazard).not.toBe('')
        expect(instead.length).toBeGreaterThan(2)
        expect(deferTo.toLowerCase()).toContain('local law')
      }
    }
  })

  test('says which ingredients carry it, what it does, and what to do beside the usual', () => {
    for (const { carriedBy, harm, care } of HAZARDS) {
      expect(carriedBy.length).toBeGreaterThan(1)
      expect(harm).toMatch(/\.$/)
      expect(care.length).toBeGreaterThan(0)
    }
  })

  test('has for each place a limit, or says whose list to see', () => {
    for (const code of HAZARD_CODES) {
      for (const place of LIMIT_JURISDICTIONS) {
        const { limits, leftOut } = limitsOfHazard(code, place)
        expect([...limits, ...leftOut].length, `${code} ${place}`).toBeGreaterThan(0)
        expect([...limits, ...leftOut].every((row) => row.jurisdiction === place)).toBe(true)
      }
    }
    for (const { words, authority } of LIMITS_LEFT_OUT) {
      expect(words).toContain(`see the authority's list (${authority})`)
    }
  })
})

describe('a caution for a material', () => {
  test('stays away where nothing is stated of it', () => {
    const plain = { name: 'whiting', statedHazards: [] }
    expect(hazardCautions({ ...handled, materials: [plain] })).toEqual([])
    expect(hazardCautions({ ...handled, materials: [] })).toEqual([])
  })

  test('names the material, what the sheet prints of it, and the limits of the place only', () => {
    const stated = [
      { hazard: 'manganese' as const, statement: 'H373 may harm the nerves', percentage: '78' },
    ]
    const [caution, ...others] = hazardCautions({
      ...handled,
      materials: [{ ...black, statedHazards: stated }],
    })
    expect(others).toEqual([])
    expect(caution).toMatchObject({ title: 'Manganese' })
    expect(caution?.why).toContain(
      'Manganese dioxide (78 %; H373 may harm the nerves) holds manganese, as stated.',
    )
    expect(caution?.limits.map(({ milligramsPerCubicMetre: limit }) => limit)).toEqual([
      '0.2',
      '0.05',
    ])
    expect(caution?.instead).toEqual([
      ...CARE_WITH_POWDERS,
      ...CARE_WITH_INGREDIENTS,
      ...hazardOf('manganese').care,
      CARE_WITH_FUME,
    ])
    expect(caution?.houseFigure).toBeUndefined()
  })

  test('is one for each hazard, however many materials carry it', () => {
    const materials = [black, { ...black, name: 'umber' }, { ...black, name: 'black stain' }]
    const cautions = hazardCautions({ ...handled, materials })
    expect(cautions).toHaveLength(1)
    expect(cautions[0]?.why).toContain('Manganese dioxide, umber and black stain hold manganese')
  })

  test('stands for wet material too, without the words for powder, and without silica', () => {
    const cautions = hazardCautions({ ...everything, isDry: false })
    expect(cautions.map(({ title }) => title)).toEqual(HAZARDS.slice(1).map(({ name }) => name))
    expect(cautions.some(({ instead }) => instead.includes(CARE_WITH_POWDERS[0] ?? ''))).toBe(false)
  })

  test('of silica is that of dust, with its limits, where powder is dry', () => {
    const flint = { name: 'flint', statedHazards: [{ hazard: 'silica' as const }] }
    const [caution] = hazardCautions({ ...handled, materials: [flint] })
    expect(caution?.title).toBeUndefined()
    expect(caution?.hazard).toContain('Respirable crystalline silica')
    expect(caution?.why).toContain('Flint holds silica')
    expect(caution?.instead[0]).toContain('Add the powder to the water')
    expect(caution?.limits).toMatchObject([{ jurisdiction: 'GB', milligramsPerCubicMetre: '0.1' }])
  })

  test('sends to the list of the place where no limit is told, and shows none of another', () => {
    const [caution] = hazardCautions({ ...handled, jurisdiction: 'AU' })
    expect(caution?.limits).toEqual([])
    expect(caution?.deferTo).toContain("see the authority's list (Safe Work Australia)")
  })

  test('shows the limits of all where the place has none here', () => {
    const [caution] = hazardCautions({ ...handled, jurisdiction: 'other' })
    const all = HAZARD_LIMITS.filter(({ hazard }) => hazard === 'manganese')
    expect(caution?.limits).toEqual(all)
  })

  test('calls nothing safe', () => {
    const said = JSON.stringify([HAZARDS, hazardCautions({ ...everything, jurisdiction: 'other' })])
    expect(said).not.toMatch(/\bis safe\b|\bare safe\b|\bsafe to\b|harmless/i)
  })
})

test('a name hints at what to ask of an ingredient, and no more', () => {
  expect(hazardsHintedBy('Manganese dioxide, fine')).toEqual(['manganese'])
  expect(hazardsHintedBy('SPODUMENE')).toEqual(['lithium'])
  expect(hazardsHintedBy('Flint 200 mesh')).toEqual(['silica'])
  expect(hazardsHintedBy('Whiting')).toEqual([])
})
