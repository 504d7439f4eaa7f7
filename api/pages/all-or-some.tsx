import type { FormFaults } from './field-words.tsx'
import { CountField } from './fields.tsx'
import type { Typed } from './typed.ts'

interface AllOrSomeProps {
  readonly runId: string
  readonly pieces: number
  /** True where all of them are chosen. */
  readonly isAll: boolean
  readonly typed: Typed
  readonly faults: FormFaults | undefined
}

/** How many pots of a run: all by one touch, or so many. */
export function AllOrSome({ runId, pieces, isAll, typed, faults }: AllOrSomeProps) {
  return (
    <div class="all-or-some">
      <label class="choice all">
        <input type="checkbox" name="all" value={runId} checked={isAll} />
        <span>All {pieces}</span>
      </label>
      <div class="some">
        <CountField
          name={`some-${runId}`}
          label={`Or only some of ${String(pieces)}`}
          typed={typed}
          faults={faults}
        />
      </div>
    </div>
  )
}

/** The runs that were chosen, and how many of each; a run of which nothing was chosen is left out. */
export function runsChosen(
  typed: Typed,
  runs: readonly { readonly runId: string; readonly pieces: number }[],
): { runId: string; pieces: number }[] {
  return runs.flatMap(({ runId, pieces }) => {
    const count = typed.all('all').includes(runId) ? pieces : typed.count(`some-${runId}`)
    return count === undefined || count === 0 ? [] : [{ runId, pieces: count }]
  })
}
