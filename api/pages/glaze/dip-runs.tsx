import type { WaitingForGlaze } from '../../../db/reports/glaze-waiting.ts'
import { AllOrSome } from '../all-or-some.tsx'
import type { FormFaults } from '../field-words.tsx'
import type { Typed } from '../typed.ts'

interface DipRunsProps {
  readonly runs: readonly WaitingForGlaze[]
  readonly typed: Typed
  readonly faults: FormFaults | undefined
}

/** Bisque run by run: all of it by one touch, or so many. What has glaze on already is folded away. */
export function DipRuns({ runs, typed, faults }: DipRunsProps) {
  const bare = runs.filter(({ glazes }) => glazes === null)
  const coated = runs.filter(({ glazes }) => glazes !== null)
  const fields = { typed, faults }
  const isTouched = coated.some(
    ({ runId }) => typed.all('all').includes(runId) || typed.text(`some-${runId}`) !== undefined,
  )
  return (
    <div id="runs">
      {runs.length === 0 ? <p>No bisque waits for glaze.</p> : null}
      {bare.map((run) => (
        <RunFields run={run} isOnly={bare.length === 1} {...fields} />
      ))}
      {coated.length === 0 ? null : (
        <details class="more" open={bare.length === 0 || isTouched}>
          <summary>A second coat, over glaze</summary>
          {coated.map((run) => (
            <RunFields run={run} isOnly={false} {...fields} />
          ))}
        </details>
      )}
    </div>
  )
}

function RunFields(props: Omit<DipRunsProps, 'runs'> & { run: WaitingForGlaze; isOnly: boolean }) {
  const { run, isOnly, typed, faults } = props
  const { runId, label, formName, pieces, glazes } = run
  const isFresh = typed.text('key') === undefined
  const isAll = typed.all('all').includes(runId) || (isFresh && isOnly)
  return (
    <fieldset class="load-run">
      <legend>{label}</legend>
      <p class="hint">{glazes === null ? formName : `${formName}, ${glazes} on it`}</p>
      <AllOrSome runId={runId} pieces={pieces} isAll={isAll} typed={typed} faults={faults} />
    </fieldset>
  )
}
