import type { BoardOfPots } from '../../../db/reports/boards.ts'
import { AllOrSome } from '../all-or-some.tsx'
import { begunWith } from '../begun-with.ts'
import type { FormFaults } from '../field-words.tsx'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { StageWords } from '../wheel/boards.tsx'

/** Pots of one run that may go in, and how many of them are in already. */
export interface Loadable {
  readonly runId: string
  readonly label: string
  readonly formName: string
  readonly pieces: number
  readonly inIt: number
  readonly board: BoardOfPots | undefined
}

interface LoadFieldsProps {
  readonly pots: readonly Loadable[]
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly voice: Voice
}

/** Pots run by run: all of them by one touch, or so many. What is dry stands first. */
export function LoadFields({ pots, typed, faults, voice }: LoadFieldsProps) {
  const isReady = ({ board, inIt }: Loadable) =>
    board === undefined || board.stage === 'for_bisque' || inIt > 0
  const ready = pots.filter(isReady)
  const wet = pots.filter((one) => !isReady(one))
  const fields = { typed, faults, voice }
  return (
    <>
      {pots.length === 0 ? <p>Nothing waits for this fire.</p> : null}
      {ready.map((one) => (
        <RunFields pots={one} {...fields} />
      ))}
      {wet.length === 0 ? null : (
        <details class="more" open={ready.length === 0 || wet.some((one) => isTouched(one, typed))}>
          <summary>Not dry yet, by the books</summary>
          <p class="hint">Damp pots burst in the fire. The hours are a guess; the scale tells.</p>
          {wet.map((one) => (
            <RunFields pots={one} {...fields} />
          ))}
        </details>
      )}
    </>
  )
}

function isTouched({ runId }: Loadable, typed: Typed): boolean {
  return chosenRuns(typed).includes(runId) || typed.text(`some-${runId}`) !== undefined
}

/** Runs of which all go in: touched here, or named by the page that led here. */
function chosenRuns(typed: Typed): string[] {
  return typed.text('key') === undefined ? typed.all('runIds') : typed.all('all')
}

function RunFields(props: Omit<LoadFieldsProps, 'pots'> & { pots: Loadable }) {
  const { pots, typed, faults, voice } = props
  const { runId, label, pieces, inIt, board } = pots
  const isFresh = typed.text('key') === undefined
  const isAll = chosenRuns(typed).includes(runId) || (isFresh && inIt === pieces)
  const some = inIt > 0 && inIt < pieces ? String(inIt) : undefined
  return (
    <fieldset class="load-run">
      <legend>{label}</legend>
      <p class="hint">
        {board === undefined ? pots.formName : <StageWords board={board} voice={voice} />}
      </p>
      <AllOrSome
        runId={runId}
        pieces={pieces}
        isAll={isAll}
        typed={begunWith(typed, { [`some-${runId}`]: some })}
        faults={faults}
      />
    </fieldset>
  )
}
