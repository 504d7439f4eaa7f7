import { describe, expect, test } from 'vitest'
import { newApp } from '../../api/app.ts'
import { MONEY_FIELDS } from '../../api/money-of-studio.ts'
import { fieldRows, namedParts, type Described } from '../../api/pages/reference-fields.ts'
import { bodyOf, routesOf } from '../../api/pages/operations.ts'
import type { ApiServices } from '../../api/services.ts'

// Nothing here asks a database: the description is made from the routes alone.
const description = newApp({
  log: { info: () => undefined, error: () => undefined },
} as unknown as ApiServices).getOpenAPI31Document({
  openapi: '3.1.0',
  info: { title: 'descriptions', version: '1' },
})
const components = description.components?.schemas as Readonly<Record<string, Described>>

/** Whatever stands in the description, however deep. */
function everySchema(inside: unknown): Described[] {
  if (typeof inside !== 'object' || inside === null) return []
  return [inside as Described, ...Object.values(inside).flatMap(everySchema)]
}

/** What is said of a field: its own words, also where they stand beside what it refers to. */
function saidOfFields(): string[] {
  const fields = everySchema(description).flatMap((schema) =>
    typeof schema.properties === 'object' ? Object.values(schema.properties) : [],
  )
  return fields.flatMap((field) =>
    [field, ...(field.allOf ?? [])].flatMap((part) => part.description ?? []),
  )
}

const rowsOf = (name: string) =>
  new Map(fieldRows(description, components[name] ?? {}).map((row) => [row.name, row]))

describe('the words of the description', () => {
  test('no part that is used again bears the words of one of its fields', () => {
    const ofFields = new Set(saidOfFields())
    expect(ofFields.size).toBeGreaterThan(100)
    const leaked = Object.entries(components)
      .filter(([, schema]) => ofFields.has(schema.description ?? ''))
      .map(([name, schema]) => `${name}: ${String(schema.description)}`)
    expect(leaked).toEqual([])
  })

  test('only what many bodies share is described apart from its fields, and by its own words', () => {
    const bodies = routesOf(description).flatMap((route) => bodyOf(route)?.schema ?? [])
    const described = namedParts(description, bodies).flatMap(({ name, schema }) =>
      schema.description === undefined ? [] : [[name, schema.description] as const],
    )
    expect(Object.fromEntries(described)).toEqual({
      Mass: 'A mass as it was read, zero included.',
      PositiveMass: 'A mass as it was read, above zero.',
      Volume: 'A volume as it was read, above zero.',
      Reading: 'One weigh-in: net, or gross with its tare or its vessel.',
      Sample: 'A sample before and after it was dried.',
      Water: 'What is known of the water: a content with its basis, or a dried sample.',
      ClaySource: 'Clay of a lot on the bench, and how much of it.',
      Firing:
        'The kiln and what the fire took, by the best that is said: meter, kilowattHours, what is usual for the kiln, or its rated power and hours. The pots bear it. Where firing is left out, they bear nothing.',
      MeterReadings: 'The meter of the kiln, before and after.',
      FuelWeighed:
        'Gas that was weighed: the cylinder before and after, or the mass burnt. It leaves the shelf of what the kiln burns.',
      GlazeBucketRead: 'The bucket before; by the books where it was not read.',
      GlazeDensity: 'A jug of stirred glaze: its volume and its weight.',
      PotsGlazedWeighed: 'All named pots together, before and after, dry both times.',
      Candling: 'Drying the ware before the fire proper, beside what the fire itself took.',
    })
  })

  test('each field says what it is itself, to machines and on the page', () => {
    for (const [name, field, words] of [
      ['Reading', 'net', 'The mass on a tared scale'],
      ['Reading', 'tare', 'What the empty vessel weighed'],
      ['Sample', 'tin', 'The empty tin'],
      ['Sample', 'wetWithTin', 'Wet sample with its tin'],
      ['Slake', 'scrap', 'How much goes in'],
      ['Slake', 'water', 'The water that is put to it'],
      ['DeliveredClay', 'bagMass', 'What the label of one bag says'],
      ['OpeningClay', 'reading', 'What is there, weighed'],
    ] as const) {
      expect(JSON.stringify(components[name]?.properties?.[field])).toContain(words)
      expect(rowsOf(name).get(field)?.description).toContain(words)
    }
    expect(rowsOf('Slake').get('scrap.net')?.description).toContain('on a tared scale')
  })

  test('every form of an opening item is told with its fields', () => {
    const rows = rowsOf('OpenBooks')
    for (const what of ['bags', 'clay', 'scrap | basin', 'load', 'pots']) {
      expect(rows.has(`items[], what: ${what}`)).toBe(true)
    }
    expect(rows.has('items[].bagMass')).toBe(true)
    expect(rows.has('items[].formId')).toBe(true)
  })

  test('the parts of bodies are told once, down to the digits and the unit of a mass', () => {
    const bodies = Object.keys(components).map((name) => ({ $ref: `#/components/schemas/${name}` }))
    const parts = namedParts(description, [bodies.find(({ $ref }) => $ref.endsWith('/Turn')) ?? {}])
    const names = parts.map(({ name }) => name)
    expect(names.sort()).toEqual(['Mass', 'PositiveMass', 'Reading', 'Sample', 'Water'])
    expect([...rowsOf('Mass').keys()]).toEqual(['value', 'unit'])
  })

  test('an id says of what it is made', () => {
    expect(components['Throw']?.properties?.['formId']?.description).toContain(
      'small letters, digits and hyphens, at most 64, beginning with a letter or digit',
    )
  })

  test('money goes by names that are known to be money', () => {
    const isMoney = (field: Described & { format?: string }) => field.format === 'money'
    const named = everySchema(description)
      .flatMap(({ properties }) => Object.entries(properties ?? {}))
      .filter(([, field]) => isMoney(field))
      .map(([name]) => name)
    expect([...new Set(named)].sort()).toEqual([...MONEY_FIELDS].sort())
  })
})
