import type { Coverage } from './coverage.ts'

/** A table as Markdown, its columns as wide as their widest cell; the first to the left, others right. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((cell, column) =>
    Math.max(3, cell.length, ...rows.map((row) => (row[column] ?? '').length)),
  )
  const line = (cells: readonly string[]) =>
    `| ${cells
      .map((cell, column) =>
        column === 0 ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0),
      )
      .join(' | ')} |`
  const rule = widths.map((width, column) =>
    column === 0 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`,
  )
  return [line(head), line(rule), ...rows.map(line)].join('\n')
}

/** A share from 0 to 1 in per cent. */
export function perCent(share: number): string {
  return (100 * share).toFixed(1)
}

/** How often intervals held, in per cent, and by how much chance may have moved that. */
export function heldCell(coverage: Coverage | undefined): string {
  if (coverage === undefined) return '-'
  const { held, from, to } = coverage
  return `${perCent(held)} ±${perCent((to - from) / 2)}`
}
