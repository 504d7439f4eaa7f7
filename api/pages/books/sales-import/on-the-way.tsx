import type { Typed } from '../../typed.ts'
import type { Brought } from './brought.ts'
import { Carrying, ColumnsCarried, NamesCarried, Way } from './carried.tsx'
import type { NameAsked } from './meanings.ts'
import type { Progress } from './progress.ts'

/** A long file on the way: what is recorded stands, and a press goes on. */
export function OnTheWay(props: {
  brought: Brought
  names: readonly NameAsked[]
  typed: Typed
  progress: Progress
  sales: number
}) {
  const { brought, names, typed, progress, sales } = props
  const by = typed.text('by')
  return (
    <>
      <h1>{String(progress.recorded.length)} sales recorded so far</h1>
      <Way at="record" />
      <p role="status">
        Of {String(sales)} in the file, {String(sales - progress.from)} have not been looked at yet.
        What is recorded stays, also if you stop here: bring the file again and it goes on where it
        was.
      </p>
      <Carrying brought={brought}>
        <ColumnsCarried brought={brought} />
        <NamesCarried names={names} />
        {typed.all('again').map((key) => (
          <input type="hidden" name="again" value={key} />
        ))}
        {by === undefined ? null : <input type="hidden" name="by" value={by} />}
        <input type="hidden" name="progress" value={JSON.stringify(progress)} />
        <button class="press" name="step" value="record">
          Go on
        </button>
      </Carrying>
    </>
  )
}
