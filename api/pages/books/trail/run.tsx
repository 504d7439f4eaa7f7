import type { Context } from 'hono'
import { namesOf } from '../../../../db/reports/names.ts'
import { traceRun, type RunTraced } from '../../../../db/reports/runs.ts'
import { present } from '../../../../shared/assert.ts'
import type { LossStage } from '../../../../shared/place.ts'
import type { MassByPart } from '../../../../shared/yield-mass.ts'
import type { PiecesByStage } from '../../../../shared/yield.ts'
import type { Environment } from '../../../services.ts'
import { show } from '../../show.tsx'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { MASS_WORDS, PIECE_WORDS, STAGE_WORDS } from '../stage-words.ts'
import { HoldingsTable, LeadsOn, Passages } from './holdings-shown.tsx'

/** A run of pots: what became of its pieces and of its clay. */
export async function showRun(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId } = voice.studio
  const runId = present(c.req.param('runId'), 'the address names a run')
  const run = await traceRun(db, { studioId, runId })
  const nameOf = await namesOf(db, studioId, {
    body: [run.bodyId],
    holding: [...run.isNow, ...run.cameFrom].map(({ holdingId }) => holdingId),
  })
  const { links } = run
  return show(
    c,
    { title: run.label, here: 'books' },
    <>
      <h1>{run.label}</h1>
      <p class="in-words">
        {run.formName} of {nameOf('body', run.bodyId)}, begun {voice.moment(run.thrownAt)}
        {run.maker === null ? '' : ` by ${run.maker}`}.
      </p>
      <LeadsOn
        links={[
          ['What happened to it', links.entries],
          ['How it began', links.madeBy],
          ['Where it is or was', links.holdings],
          [run.formName, links.form],
          [nameOf('body', run.bodyId), links.body],
        ]}
      />
      <Pieces pieces={run.pieces} voice={voice} />
      <Stages stages={run.stages} voice={voice} />
      <Losses losses={run.losses} voice={voice} />
      <Clay mass={run.mass} voice={voice} />
      <h2>Where it is now</h2>
      <HoldingsTable holdings={run.isNow} voice={voice} nameOf={nameOf} />
      <h2>Where its clay came from</h2>
      <Passages passages={run.cameFrom} voice={voice} nameOf={nameOf} />
    </>,
  )
}

function Pieces({ pieces, voice }: Pick<RunTraced, 'pieces'> & { voice: Voice }) {
  const some = Object.entries(pieces).filter(([, count]) => count !== '0')
  return (
    <>
      <h2>Its pieces</h2>
      <ul>
        {some.map(([what, count]) => (
          <li>
            {count} {voice.words(PIECE_WORDS[what as keyof PiecesByStage])}
          </li>
        ))}
      </ul>
    </>
  )
}

function Stages({ stages, voice }: Pick<RunTraced, 'stages'> & { voice: Voice }) {
  return (
    <>
      <h2>What came through</h2>
      <dl class="facts">
        {stages.map(({ stage, words }) => (
          <>
            <dt>{voice.words(STAGE_WORDS[stage])}</dt>
            <dd>{voice.words(words)}</dd>
          </>
        ))}
      </dl>
    </>
  )
}

function Losses({ losses, voice }: Pick<RunTraced, 'losses'> & { voice: Voice }) {
  if (losses.length === 0) return null
  return (
    <>
      <h2>Lost</h2>
      <ul class="happened">
        {losses.map(({ pieces, stage, cause, happenedAt, isTakenBack, trail }) => (
          <li>
            <a href={trailHref(trail)}>
              {isTakenBack ? <strong>Taken back since. </strong> : null}
              {pieces}: {cause}
            </a>
            <span class="quiet">
              {voice.words(LOSS_STAGE_WORDS[stage as LossStage])}, {voice.day(happenedAt)}
            </span>
          </li>
        ))}
      </ul>
    </>
  )
}

/** When a piece was lost. */
export const LOSS_STAGE_WORDS: Readonly<Record<LossStage, string>> = {
  wheel: 'at the wheel',
  leather_hard: 'leather-hard',
  drying: 'while drying',
  bisque_firing: 'in the bisque firing',
  glazing: 'while glazing',
  glaze_firing: 'in the glaze firing',
  handling: 'in handling',
}

function Clay({ mass, voice }: Pick<RunTraced, 'mass'> & { voice: Voice }) {
  const some = Object.entries(mass).filter(([, { dryGrams }]) => dryGrams !== '0')
  return (
    <>
      <h2>Its clay</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">What became of it</th>
            <th scope="col" class="number">
              Dry clay
            </th>
            <th scope="col" class="number">
              Share
            </th>
          </tr>
        </thead>
        <tbody>
          {some.map(([part, { dryGrams, dryUncertaintyGrams, fractionOfBegun }]) => (
            <tr>
              <th scope="row">{voice.words(MASS_WORDS[part as keyof MassByPart])}</th>
              <td class="number">{voice.massSure(dryGrams, dryUncertaintyGrams)}</td>
              <td class="number">{fractionOfBegun === null ? '' : voice.share(fractionOfBegun)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}
