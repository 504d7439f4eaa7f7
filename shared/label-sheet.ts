export const LABEL_SIZES = ['small', 'middle', 'large'] as const

/** How large labels are; each fits whole times on a sheet of A4 and of Letter. */
export type LabelSize = (typeof LABEL_SIZES)[number]

/** A label and how many of it lie on a sheet. */
export interface LabelGrid {
  readonly widthMillimetres: number
  readonly heightMillimetres: number
  readonly across: number
  readonly down: number
}

/** A line along which to cut, or the mark of one. */
export interface CutMark {
  readonly x1: number
  readonly y1: number
  readonly x2: number
  readonly y2: number
}

/**
 * Labels that fill 180 by 240 mm: with 5 mm around them for the marks, and the 10 mm that printers keep
 * free, they fit on A4 (210 by 297) and on Letter (216 by 279).
 *
 * Units: millimetres. Source: ISO 216 and ANSI/ASME Y14.1 for the sheets; the rest is our choice.
 */
export const LABEL_GRIDS: Readonly<Record<LabelSize, LabelGrid>> = {
  small: { widthMillimetres: 60, heightMillimetres: 40, across: 3, down: 6 },
  middle: { widthMillimetres: 90, heightMillimetres: 60, across: 2, down: 4 },
  large: { widthMillimetres: 180, heightMillimetres: 80, across: 1, down: 3 },
}

/** What is left around the labels of a sheet for the marks. Units: millimetres. */
export const MARK_MARGIN_MILLIMETRES = 5

const CROSS_MILLIMETRES = 1.5

/**
 * Labels laid out on sheets, each sheet full but the last.
 *
 * Source: our choice.
 */
export function sheetsOf<Label>(labels: readonly Label[], size: LabelSize): Label[][] {
  const { across, down } = LABEL_GRIDS[size]
  const each = across * down
  return Array.from({ length: Math.ceil(labels.length / each) }, (_, sheet) =>
    labels.slice(sheet * each, (sheet + 1) * each),
  )
}

/**
 * Where to cut: a mark in the margin at both ends of each cut, and a small cross where cuts meet.
 *
 * Units: millimetres from the corner of the sheet's drawing. Source: our choice.
 */
export function cutMarks(size: LabelSize): CutMark[] {
  const { widthMillimetres, heightMillimetres, across, down } = LABEL_GRIDS[size]
  const columns = edges(across, widthMillimetres)
  const rows = edges(down, heightMillimetres)
  const [right, bottom] = [across * widthMillimetres, down * heightMillimetres]
  const margin = MARK_MARGIN_MILLIMETRES
  const upright = columns.flatMap((x) => [
    { x1: x, y1: 0, x2: x, y2: margin - 1 },
    { x1: x, y1: bottom + margin + 1, x2: x, y2: bottom + 2 * margin },
  ])
  const level = rows.flatMap((y) => [
    { x1: 0, y1: y, x2: margin - 1, y2: y },
    { x1: right + margin + 1, y1: y, x2: right + 2 * margin, y2: y },
  ])
  const crosses = columns
    .slice(1, -1)
    .flatMap((x) => rows.slice(1, -1).flatMap((y) => crossAt(x, y)))
  return [...upright, ...level, ...crosses]
}

function edges(count: number, length: number): number[] {
  return Array.from({ length: count + 1 }, (_, edge) => MARK_MARGIN_MILLIMETRES + edge * length)
}

function crossAt(x: number, y: number): CutMark[] {
  const half = CROSS_MILLIMETRES
  return [
    { x1: x - half, y1: y, x2: x + half, y2: y },
    { x1: x, y1: y - half, x2: x, y2: y + half },
  ]
}
