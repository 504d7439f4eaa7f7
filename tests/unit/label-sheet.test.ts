import { describe, expect, test } from 'vitest'
import {
  cutMarks,
  LABEL_GRIDS,
  LABEL_SIZES,
  MARK_MARGIN_MILLIMETRES,
  sheetsOf,
} from '../../shared/label-sheet.ts'

const PRINTER_MARGIN = 10
const PAPERS = [
  { name: 'A4', width: 210, height: 297 },
  { name: 'Letter', width: 215.9, height: 279.4 },
]

describe.each(LABEL_SIZES)('%s labels', (size) => {
  const { widthMillimetres, heightMillimetres, across, down } = LABEL_GRIDS[size]
  const width = across * widthMillimetres + 2 * MARK_MARGIN_MILLIMETRES
  const height = down * heightMillimetres + 2 * MARK_MARGIN_MILLIMETRES

  test.each(PAPERS)('fit on $name with what a printer keeps free', (paper) => {
    expect(width + 2 * PRINTER_MARGIN).toBeLessThanOrEqual(paper.width)
    expect(height + 2 * PRINTER_MARGIN).toBeLessThanOrEqual(paper.height)
  })

  test('have a mark at both ends of each cut, none of it off the sheet', () => {
    const marks = cutMarks(size)
    expect(marks.length).toBe(2 * (across + 1) + 2 * (down + 1) + 2 * (across - 1) * (down - 1))
    expect(marks.every(({ x1, x2, y1, y2 }) => Math.min(x1, x2, y1, y2) >= 0)).toBe(true)
    expect(marks.every(({ x2, y2 }) => x2 <= width && y2 <= height)).toBe(true)
  })

  test('fill a sheet before the next begins', () => {
    const labels = Array.from({ length: across * down + 1 }, (_, label) => label)
    expect(sheetsOf(labels, size).map((sheet) => sheet.length)).toEqual([across * down, 1])
    expect(sheetsOf([], size)).toEqual([])
  })
})
