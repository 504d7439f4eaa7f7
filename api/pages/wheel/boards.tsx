import type { BoardOfPots } from '../../../db/reports/boards.ts'
import type { FormThrown } from '../../../db/reports/throwing.ts'
import type { BoardStage } from '../../../shared/board-stage.ts'
import type { Voice } from '../voice.ts'
import { cutWords } from './cut-words.ts'

const SHELVES: readonly { stage: BoardStage; heading: string }[] = [
  { stage: 'to_turn', heading: 'To turn' },
  { stage: 'for_bisque', heading: 'Ready for bisque' },
  { stage: 'just_thrown', heading: 'Just thrown' },
  { stage: 'drying', heading: 'Drying' },
]

interface BoardsProps {
  readonly boards: readonly BoardOfPots[]
  readonly forms: readonly FormThrown[]
  readonly voice: Voice
}

/** What is on the boards, by what it waits for; on top the way to throw. */
export function Boards({ boards, forms, voice }: BoardsProps) {
  const last = forms.find(({ lastThrownAt }) => lastThrownAt !== null)
  return (
    <>
      <h1>The wheel</h1>
      <div class="ways">
        <a class="button press" href="/wheel/throw">
          Throw
        </a>
        {last === undefined ? null : (
          <a class="target" href={`/wheel/throw/${last.formId}`} data-offline>
            <strong>{last.name} again</strong>
            <span>{cutWords(last, voice)}</span>
          </a>
        )}
      </div>
      {boards.length === 0 ? <p>Nothing is on the boards.</p> : null}
      {SHELVES.map(({ stage, heading }) => (
        <Shelf
          heading={voice.words(heading)}
          boards={boards.filter((board) => board.stage === stage)}
          voice={voice}
        />
      ))}
      {boards.length === 0 ? null : (
        <p class="row">
          <a class="button" href="/wheel/slops">
            Collect slops
          </a>
          <a class="button" href="/kiln/load/bisque">
            Load the kiln
          </a>
        </p>
      )}
      <p class="quiet">
        The books know when a pot was worked on, not how it dries. What is marked as a guess goes by
        the hours alone; a weigh-in of the board tells its water.
      </p>
    </>
  )
}

function Shelf(props: { heading: string; boards: readonly BoardOfPots[]; voice: Voice }) {
  const { heading, boards, voice } = props
  if (boards.length === 0) return null
  return (
    <section>
      <h2>{heading}</h2>
      <ul class="targets">
        {boards.map((board) => (
          <li>
            <a class="target" href={`/wheel/run/${board.runId}`} data-offline>
              <strong>
                {board.label} <span class="many">{board.pieces}</span>
              </strong>
              <StageWords board={board} voice={voice} />
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** What the books know of its drying, and whether that is more than a guess. */
export function StageWords({ board, voice }: { board: BoardOfPots; voice: Voice }) {
  return (
    <span>
      {board.isGuess ? <em>A guess: </em> : <em>Weighed: </em>}
      {voice.words(board.words)}
    </span>
  )
}
