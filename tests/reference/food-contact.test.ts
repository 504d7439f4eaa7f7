import { describe, expect, test } from 'vitest'
import { FOOD_CONTACT_TEXTS, FOOD_CONTACT_WORDS } from '../../shared/food-contact.ts'

/** Lead and cadmium as the ware gives them off: amounts in the order in which they stand. */
const FOOD_CONTACT = [
  {
    document: '84/500/EEC',
    amounts: ['0.8', '0.07', '4.0', '0.3', '1.5', '0.1'],
    source: 'practical guide to the directive, agroparistech.fr',
    standing: 'seen',
  },
  {
    document: 'Food Code 4-101.13',
    amounts: ['3.0', '2.0', '1', '0.5'],
    source: 'WAC 246-215-04110',
    standing: 'second-hand',
  },
  {
    document: '545.400',
    amounts: ['0.5', '0.5', '0.25'],
    source: 'undated copy, haowendang.cn',
    standing: 'second-hand',
  },
  { document: 'ISO 6486-1:2019', amounts: [], source: 'evs.ee', standing: 'seen' },
  { document: 'ISO 6486-2:1999', amounts: [], source: 'evs.ee', standing: 'seen' },
] as const

describe('what is published of glazes and food', () => {
  test.each(FOOD_CONTACT)('$document: $amounts ($standing: $source)', (published) => {
    const found = FOOD_CONTACT_TEXTS.filter(({ document }) => document.includes(published.document))
    expect(found).toMatchObject([{ standing: published.standing }])
    expect(found[0]?.limits.map(({ amount }) => amount)).toEqual(published.amounts)
  })

  test('comes with authority and date, and judges no glaze', () => {
    expect(FOOD_CONTACT_TEXTS).toHaveLength(FOOD_CONTACT.length)
    for (const { authority, document, asOf, published } of FOOD_CONTACT_TEXTS) {
      expect(authority).not.toBe('')
      expect(document).not.toBe('')
      expect(asOf).toMatch(/^\d{4}-\d{2}$/)
      if (published !== null) expect(published).toMatch(/^\d{4}-\d{2}-\d{2}$/)
    }
    expect(FOOD_CONTACT_WORDS[0]).toContain('for a laboratory and local law to say')
    expect(FOOD_CONTACT_WORDS.join(' ')).not.toMatch(/food[- ]safe|\bis safe\b/i)
  })
})
