import type { BoardOfPots } from '../../../db/reports/boards.ts'
import type { TurningReport } from '../../../db/reports/turning.ts'
import type { RunTraced } from '../../../db/reports/runs.ts'
import { PLACE_WORDS, type PotPlace } from '../../../shared/place.ts'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'
import { StageWords } from './boards.tsx'
import { placesOf, type RunHere } from './run-here.ts'
import { TurnedOff } from './turned-off.tsx'

interface Next {
  readonly href: string
  readonly name: string
  readonly words?: string
}

interface RunPageProps extends RunHere {
  readonly turning: TurningReport
  readonly voice: Voice
}

/** One run: where its pieces are, and what can be done with them. */
export function RunPage({ run, board, turning, voice }: RunPageProps) {
  const places = placesOf(run)
  const maker = run.maker === null ? '' : ` by ${run.maker}`
  return (
    <>
      <h1>{run.label}</h1>
      <p>
        {run.formName}, thrown {voice.moment(run.thrownAt)}
        {maker}
      </p>
      {board === undefined ? null : (
        <p class="stage">
          <StageWords board={board} voice={voice} />
        </p>
      )}
      {places.length === 0 ? (
        <p>Nothing of it is here any more.</p>
      ) : (
        <dl class="figures pieces-by-place">
          {run.isNow
            .filter(({ pieces }) => pieces !== '0')
            .map((held) => (
              <div>
                <dt>{placeWords(held.place as PotPlace, held.grade)}</dt>
                <dd>
                  <a href={trailHref(held.links.self)}>{held.pieces}</a>
                  {held.place === 'greenware' ? (
                    <small>{voice.mass(held.dryGrams)} dry clay</small>
                  ) : null}
                </dd>
              </div>
            ))}
        </dl>
      )}
      <ul class="targets">
        {nextOf({ run, board }, places).map(({ href, name, words }) => (
          <li>
            <a class="target" href={href} data-offline>
              <strong>{voice.words(name)}</strong>
              {words === undefined ? null : <span>{voice.words(words)}</span>}
            </a>
          </li>
        ))}
      </ul>
      <TurnedOff run={run} turning={turning} voice={voice} />
      <Losses run={run} voice={voice} />
      <p>
        <a href={trailHref(run.links.self)}>All that the books have on this run</a>
      </p>
    </>
  )
}

function placeWords(place: PotPlace, grade: string | null): string {
  if (place === 'greenware') return 'on the boards'
  return grade === null ? PLACE_WORDS[place] : `on the shelf, ${grade}s`
}

/** What can be done, what is due first. */
function nextOf({ run, board }: RunHere, places: readonly PotPlace[]): Next[] {
  const at = (action: string) => `/wheel/run/${run.runId}/${action}`
  const turn: Next = { href: at('turn'), name: 'Turn', words: 'weigh what comes off' }
  const join: Next = { href: at('join'), name: 'Join on', words: 'handles, spouts, lids' }
  const slops: Next = {
    href: `/wheel/slops?runIds=${run.runId}`,
    name: 'Slops',
    words: 'weigh what is in the tray',
  }
  const weigh: Next = {
    href: `/weigh/run/${run.runId}`,
    name: 'Weigh the board',
    words: 'tells its water',
  }
  const bisque: Next = { href: `/kiln/load/bisque?runIds=${run.runId}`, name: 'Load for bisque' }
  const green = ({ stage, isTurned }: Pick<BoardOfPots, 'stage' | 'isTurned'>): Next[] => {
    if (stage === 'for_bisque') return [bisque, weigh, turn, join, slops]
    if (isTurned) return [join, weigh, bisque, slops, turn]
    return stage === 'just_thrown'
      ? [slops, turn, join, weigh, bisque]
      : [turn, join, slops, weigh, bisque]
  }
  const all: readonly (Next | false)[] = [
    ...(board === undefined ? [] : green(board)),
    places.includes('bisque') && {
      href: `/kiln/load/glaze?runIds=${run.runId}`,
      name: 'Load for the glaze fire',
    },
    places.includes('glazed') && { href: `/kiln/grade/${run.runId}`, name: 'Grade' },
    places.includes('finished') && { href: '/books/sell', name: 'Sell' },
    places.length > 0 && { href: at('lose'), name: 'Lost some', words: 'and why' },
  ]
  return all.filter((next) => next !== false)
}

function Losses({ run, voice }: { run: RunTraced; voice: Voice }) {
  const losses = run.losses.filter(({ isTakenBack }) => !isTakenBack)
  if (losses.length === 0) return null
  return (
    <section>
      <h2>Lost</h2>
      <ul>
        {losses.map(({ pieces, cause, happenedAt, trail }) => (
          <li>
            <a href={trailHref(trail)}>{pieces}</a> {cause}, {voice.day(happenedAt)}
          </li>
        ))}
      </ul>
    </section>
  )
}
