import type { Context } from 'hono'
import {
  traceHolding,
  type HoldingLine,
  type HoldingTraced,
} from '../../../../db/reports/holdings.ts'
import { namesOf } from '../../../../db/reports/names.ts'
import { present } from '../../../../shared/assert.ts'
import type { EntryKind } from '../../../../shared/entry-kind.ts'
import { isInside, PLACE_WORDS, type Place } from '../../../../shared/place.ts'
import type { Environment } from '../../../services.ts'
import { timedPageQuery } from '../../../schemas.ts'
import { KIND_WORDS } from '../../entry-words.ts'
import { show } from '../../show.tsx'
import type { Voice } from '../../voice.ts'
import { listAsked } from './asked.ts'
import { LeadsOn, Passages } from './holdings-shown.tsx'
import { Older } from './narrowed.tsx'

/** One thing at one place: what it is, how sure, where it came from, and all that moved it. */
export async function showHolding(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId } = voice.studio
  const holdingId = present(c.req.param('holdingId'), 'the address names a holding')
  const { page } = listAsked(c, timedPageQuery)
  const holding = await traceHolding(db, { studioId, holdingId, page })
  const nameOf = await namesOf(db, studioId, {
    holding: [holdingId, ...holding.cameFrom.map((one) => one.holdingId)],
    body: [holding.bodyId],
  })
  const place = holding.place as Place
  const title = isInside(place) ? nameOf('holding', holdingId) : capital(PLACE_WORDS[place])
  const clay = holding.bodyId === null ? '' : `, ${nameOf('body', holding.bodyId)}`
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      <p class="in-words">{voice.words(`${capital(PLACE_WORDS[place])}${clay}`)}.</p>
      {isInside(place) ? <Held holding={holding} voice={voice} /> : null}
      <LeadsOn
        links={[
          ['Its clay', holding.links.body],
          ['Its lot', holding.links.lot],
          ['Its run of pots', holding.links.run],
          ['Its vessel', holding.links.vessel],
        ]}
      />
      {isInside(place) ? (
        <>
          <h2>Where it came from</h2>
          <Passages passages={holding.cameFrom} voice={voice} nameOf={nameOf} />
        </>
      ) : null}
      <h2>What moved it</h2>
      <Lines lines={holding.lines.items} voice={voice} isHere={isInside(place)} />
      <Older c={c} nextKey={holding.lines.nextKey} />
    </>,
  )
}

function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`
}

function Held({ holding, voice }: { holding: HoldingTraced; voice: Voice }) {
  const { dryGrams, waterGrams, pieces, cost, standardUncertaintyGrams, unsureBecause } = holding
  return (
    <>
      <dl class="figures">
        {pieces === '0' ? null : <Figure name="Pieces" value={pieces} />}
        <Figure name="Dry clay" value={voice.massSure(dryGrams, standardUncertaintyGrams)} />
        <Figure name="Water" value={voice.mass(waterGrams)} />
        <Figure name="Cost" value={voice.money(cost)} />
      </dl>
      {unsureBecause.length === 0 ? null : (
        <p>
          It is unsure because of{' '}
          {unsureBecause
            .map(
              ({ because, standardUncertainty }) =>
                `${because} (${voice.mass(standardUncertainty)} one way or the other if it were alone)`,
            )
            .join('; ')}
          .
        </p>
      )}
    </>
  )
}

function Figure({ name, value }: { name: string; value: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  )
}

function Lines(props: { lines: readonly HoldingLine[]; voice: Voice; isHere: boolean }) {
  const { lines, voice, isHere } = props
  if (lines.length === 0) return <p>Nothing yet.</p>
  return (
    <ul class="happened">
      {lines.map(({ entryId, kind, happenedAt, change, before, after }) => (
        <li>
          <a href={`/books/trail/entry/${entryId}`}>
            {voice.words(KIND_WORDS[kind as EntryKind])}: {changeWords(change, voice)}
          </a>
          <span class="quiet">
            <time datetime={happenedAt}>{voice.moment(happenedAt)}</time>
            {isHere
              ? `. Dry clay before ${voice.mass(before.dryGrams)}, after ${voice.mass(after.dryGrams)}.`
              : ''}
          </span>
        </li>
      ))}
    </ul>
  )
}

/** What one entry moved, in words. */
function changeWords({ dryGrams, waterGrams, pieces, cost }: HoldingLine['change'], voice: Voice) {
  const sign = (amount: string) => (amount.startsWith('-') ? '' : '+')
  const parts = [
    pieces === '0' ? '' : `${sign(pieces)}${pieces} pieces`,
    dryGrams === '0' ? '' : `${sign(dryGrams)}${voice.mass(dryGrams)} dry clay`,
    waterGrams === '0' ? '' : `${sign(waterGrams)}${voice.mass(waterGrams)} water`,
    cost === '0' ? '' : `${sign(cost)}${voice.money(cost)}`,
  ]
  return parts.filter((part) => part !== '').join(', ')
}
