import { expect, test } from 'vitest'
import { shortName } from '../../shared/short-name.ts'

test.each([
  ['Turnings, white lid', 'turnings-white-lid'],
  ['  Crème & Größe №2 ', 'creme-grosse-no2'],
  ['---', ''],
  ['粘土', ''],
  ['a'.repeat(60), 'a'.repeat(48)],
  [`${'a'.repeat(47)} b`, 'a'.repeat(47)],
])('%s is called %s', (name, short) => {
  expect(shortName(name)).toBe(short)
})
