import { encode } from 'uqr'

/** The quiet zone that a reader needs around the code, in its squares. Source: ISO/IEC 18004. */
const QUIET_SQUARES = 4

interface QrProps {
  /** What a reader shall find in it. */
  readonly text: string
  /** What it is for, for whoever hears the page. */
  readonly name: string
}

/** A code for a phone's camera, with a quarter of it to spare for clay and water. */
export function QrCode({ text, name }: QrProps) {
  const { data, size } = encode(text, { ecc: 'Q', border: 0, boostEcc: true })
  const side = size + 2 * QUIET_SQUARES
  return (
    <svg
      class="qr"
      role="img"
      aria-label={name}
      viewBox={`0 0 ${String(side)} ${String(side)}`}
      shape-rendering="crispEdges"
    >
      <rect width={side} height={side} fill="#fff" />
      <path d={pathOf(data)} fill="#000" />
    </svg>
  )
}

/** The dark squares as one path: a strip for each run of them in a row. */
function pathOf(rows: readonly (readonly boolean[])[]): string {
  return rows
    .flatMap((row, y) =>
      runsIn(row).map(
        ({ from, length }) =>
          `M${String(from + QUIET_SQUARES)} ${String(y + QUIET_SQUARES)}h${String(length)}v1h-${String(length)}z`,
      ),
    )
    .join('')
}

function runsIn(row: readonly boolean[]): { from: number; length: number }[] {
  const runs: { from: number; length: number }[] = []
  for (const [x, isDark] of row.entries()) {
    if (!isDark) continue
    const last = runs.at(-1)
    if (last !== undefined && last.from + last.length === x) last.length += 1
    else runs.push({ from: x, length: 1 })
  }
  return runs
}
