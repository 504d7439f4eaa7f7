import type { FiringsReport } from '../../../db/reports/firings.ts'
import type { BoardOfPots } from '../../../db/reports/boards.ts'
import type { KilnReport, WaitingForKiln } from '../../../db/reports/kiln.ts'
import type { KilnLoadView } from '../../../db/kiln-loads.ts'
import type { KilnKind } from '../../../shared/kiln-load.ts'
import { StageWords } from '../wheel/boards.tsx'
import type { Voice } from '../voice.ts'
import { KilnCaution } from './kiln-caution.tsx'
import { LatestFirings } from './latest-firings.tsx'

/** What each fire is called. */
export const FIRE_WORDS: Readonly<Record<KilnKind, string>> = {
  bisque: 'Bisque',
  glaze: 'Glaze fire',
}

interface KilnPageProps extends KilnReport {
  readonly boards: readonly BoardOfPots[]
  readonly firings: FiringsReport
  readonly hasKilns: boolean
  readonly voice: Voice
}

/** What is in the kilns, what waits for them, and what waits to be looked at. */
export function KilnPage(props: KilnPageProps) {
  const { loads, waiting, boards, voice } = props
  const at = (place: WaitingForKiln['place']) => waiting.filter((one) => one.place === place)
  const stageOf = (runId: string) => boards.find((board) => board.runId === runId)
  const green = at('greenware')
  const dry = green.filter(({ runId }) => stageOf(runId)?.stage === 'for_bisque')
  return (
    <>
      <h1>The kiln</h1>
      {loads.map((load) => (
        <Load load={load} voice={voice} />
      ))}
      {at('glazed').length === 0 ? null : (
        <section>
          <h2>To grade</h2>
          <ul class="targets">
            {at('glazed').map((pots) => (
              <li>
                <a class="target" href={`/kiln/grade/${pots.runId}`} data-offline>
                  <Pots pots={pots} />
                  <span>{pots.formName}, out of the glaze fire</span>
                </a>
              </li>
            ))}
          </ul>
        </section>
      )}
      <Waiting heading="Waiting for bisque" kind="bisque" pots={dry}>
        {(pots) => {
          const board = stageOf(pots.runId)
          return board === undefined ? null : <StageWords board={board} voice={voice} />
        }}
      </Waiting>
      {green.length > dry.length ? (
        <p class="quiet">
          {String(green.length - dry.length)} more on the boards, not dry yet:{' '}
          <a href="/wheel">the wheel</a>.
        </p>
      ) : null}
      <Waiting heading="Waiting for the glaze fire" kind="glaze" pots={at('bisque')}>
        {(pots) => <span>{pots.formName}, bisque</span>}
      </Waiting>
      <LatestFirings report={props.firings} voice={voice} />
      {props.hasKilns ? (
        <a class="button" href="/kiln/empty">
          Fired with nothing in it
        </a>
      ) : (
        <p class="quiet">
          <a href="/books/things/kilns/new">Enter your kiln</a>, and each pot knows what its fires
          cost.
        </p>
      )}
      <KilnCaution />
    </>
  )
}

function Load({ load, voice }: { load: KilnLoadView; voice: Voice }) {
  const { kilnLoadId, kind, runs, pieces } = load
  return (
    <section class="load" aria-label={`In the kiln: ${FIRE_WORDS[kind]}`}>
      <h2>In the kiln: {FIRE_WORDS[kind]}</h2>
      <p>
        {pieces} pieces, since {voice.moment(load.loadedAt)}
        {load.loadedBy === null ? '' : `, by ${load.loadedBy}`}
      </p>
      <ul>
        {runs.map((run) => (
          <li>
            <strong>{run.pieces}</strong> {run.label}
          </li>
        ))}
      </ul>
      <a class="button press" href={`/kiln/unload/${kilnLoadId}`} data-offline>
        Unload
      </a>
      <a class="button" href={`/kiln/change/${kilnLoadId}`}>
        Change what is in it
      </a>
    </section>
  )
}

interface WaitingProps {
  readonly heading: string
  readonly kind: KilnKind
  readonly pots: readonly WaitingForKiln[]
  readonly children: (pots: WaitingForKiln) => unknown
}

function Waiting({ heading, kind, pots, children }: WaitingProps) {
  return (
    <section>
      <h2>{heading}</h2>
      {pots.length === 0 ? (
        <p class="quiet">Nothing waits.</p>
      ) : (
        <ul class="targets">
          {pots.map((one) => (
            <li>
              <a class="target" href={`/wheel/run/${one.runId}`}>
                <Pots pots={one} />
                {children(one)}
              </a>
            </li>
          ))}
        </ul>
      )}
      <a class="button" href={`/kiln/load/${kind}`} data-offline>
        {kind === 'bisque' ? 'Load for bisque' : 'Load for the glaze fire'}
      </a>
    </section>
  )
}

function Pots({ pots }: { pots: WaitingForKiln }) {
  return (
    <strong>
      {pots.label} <span class="many">{pots.pieces}</span>
    </strong>
  )
}
