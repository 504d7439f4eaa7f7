import { expect, test } from 'vitest'
import { csvText } from '../../api/csv.ts'

const columns = [
  { heading: 'note', value: (row: { note: string; grams: string }) => row.note },
  { heading: 'dry_grams', value: (row: { note: string; grams: string }) => row.grams },
]

test.each([
  ['=1+1', "'=1+1"],
  ['+44 20', "'+44 20"],
  ['-a', "'-a"],
  ['@sum', "'@sum"],
  ['\tx', "'\tx"],
  ['5 bags', '5 bags'],
])('a spreadsheet takes %j for text', (note, shown) => {
  expect(csvText(columns, [{ note, grams: '-12.5' }])).toBe(`note,dry_grams\r\n${shown},-12.5\r\n`)
})

test('commas, quotes and line breaks stay in their cell', () => {
  expect(csvText(columns, [{ note: 'a "b", c\nd', grams: '1' }])).toBe(
    'note,dry_grams\r\n"a ""b"", c\nd",1\r\n',
  )
})
