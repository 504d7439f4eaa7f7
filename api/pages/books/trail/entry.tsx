import type { Context } from 'hono'
import { traceEntry, type EntryTraced } from '../../../../db/reports/entries.ts'
import { namesOf, type NameOf } from '../../../../db/reports/names.ts'
import { present } from '../../../../shared/assert.ts'
import type { EntryKind } from '../../../../shared/entry-kind.ts'
import { decimal } from '../../../../shared/decimal.ts'
import { giveOrTake } from '../../../../shared/how-sure.ts'
import type { Environment } from '../../../services.ts'
import { entryWords, KIND_WORDS } from '../../entry-words.ts'
import { show } from '../../show.tsx'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'
import { EntryActions } from './entry-actions.tsx'
import { EntryFiring, EntryLayers, EntryLosses } from './entry-firing.tsx'
import { EntryLines } from './entry-lines.tsx'
import { namesOfLines } from './entry-list.tsx'
import { EntryReadings } from './entry-readings.tsx'
import { mendAddress } from './mend.ts'

/** One entry with everything that hangs on it, and what can be done about it. */
export async function showEntry(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId } = voice.studio
  const entryId = present(c.req.param('entryId'), 'the address names an entry')
  const entry = await traceEntry(db, { studioId, entryId })
  const nameOf = await namesOf(db, studioId, namesIn(entry))
  const title = voice.words(KIND_WORDS[entry.kind as EntryKind])
  const mend = entry.reversedByEntryId === null ? await mendAddress(c, entry) : undefined
  return show(
    c,
    { title, here: 'books' },
    <>
      <h1>{title}</h1>
      <p class="in-words">{entryWords(entry, voice, namesOfLines(entry, nameOf))}</p>
      <Standing entry={entry} />
      <Circumstances entry={entry} voice={voice} />
      <EntryReadings entry={entry} voice={voice} nameOf={nameOf} />
      <Facts entry={entry} voice={voice} nameOf={nameOf} />
      <EntryLosses entry={entry} voice={voice} nameOf={nameOf} />
      <EntryFiring entry={entry} voice={voice} nameOf={nameOf} />
      <EntryLines lines={entry.lines} voice={voice} nameOf={nameOf} />
      <EntryLayers entry={entry} voice={voice} nameOf={nameOf} />
      <LeadsTo entry={entry} nameOf={nameOf} />
      <EntryActions c={c} entry={entry} mend={mend} />
    </>,
  )
}

function namesIn(entry: EntryTraced) {
  const { lines, weighings, estimates, losses, sale, dryTest, glazings, firing } = entry
  return {
    material: glazings.map(({ materialId }) => materialId),
    body: [...lines.map(({ bodyId }) => bodyId), dryTest?.bodyId],
    lot: [...lines.map(({ lotId }) => lotId), dryTest?.lotId],
    run: [...lines, ...losses, ...(firing?.shares ?? [])].map(({ runId }) => runId),
    vessel: weighings.map(({ vesselId }) => vesselId),
    scale: weighings.map(({ scaleId }) => scaleId),
    form: [sale?.formId],
    holding: [...lines, ...estimates].map(({ holdingId }) => holdingId),
  }
}

/** Whether it stands, and what takes the place of what. */
function Standing({ entry }: { entry: EntryTraced }) {
  const { reverses, reversedBy } = entry.links
  if (reverses !== null) {
    return (
      <p class="stands">
        It takes back <a href={trailHref(reverses)}>an earlier entry</a>, which stays readable.
      </p>
    )
  }
  if (reversedBy === null) return null
  return (
    <p class="stands">
      <strong>Taken back since.</strong> It counts no more:{' '}
      <a href={trailHref(reversedBy)}>see what took it back</a>.
    </p>
  )
}

function Circumstances({ entry, voice }: { entry: EntryTraced; voice: Voice }) {
  const { happenedAt, recordedAt, recordedBy, note } = entry
  return (
    <dl class="facts">
      <dt>When</dt>
      <dd>
        <time datetime={happenedAt}>{voice.moment(happenedAt)}</time>
      </dd>
      <dt>Written down</dt>
      <dd>
        <time datetime={recordedAt}>{voice.moment(recordedAt)}</time>
        {recordedBy === null ? '' : ` by ${recordedBy}`}
      </dd>
      {note === null ? null : (
        <>
          <dt>Note</dt>
          <dd>{note}</dd>
        </>
      )}
    </dl>
  )
}

/** What else it says: what was sold, what a sample told. */
function Facts({ entry, voice, nameOf }: { entry: EntryTraced; voice: Voice; nameOf: NameOf }) {
  const { sale, dryTest, glazings } = entry
  const pots = (pieces: number) => `${String(pieces)} ${pieces === 1 ? 'piece' : 'pieces'}`
  const sayings = [
    ...(sale === null
      ? []
      : [
          `${pots(sale.pieces)} of ${nameOf('form', sale.formId)}, ${sale.grade}, at ${voice.money(sale.priceEach)} each: ${sale.channel}.`,
        ]),
    ...glazings.map((glazing) => glazingWords(glazing, voice, nameOf)),
    ...(dryTest === null
      ? []
      : [
          `Of the sample’s wet mass ${voice.share(dryTest.waterContentWetBasis)} was water (give or take ${voice.share(giveOrTake(decimal(dryTest.standardUncertainty)))}).`,
        ]),
  ]
  return (
    <>
      {sayings.map((words) => (
        <p>{voice.words(words)}</p>
      ))}
    </>
  )
}

const HOW_GLAZED: Readonly<Record<string, string>> = {
  bucket: 'by the bucket, before and after',
  pieces: 'by the pots, before and after',
  usual: 'as usual for the form',
}

/** Glaze that landed on a run. */
function glazingWords(
  glazing: EntryTraced['glazings'][number],
  voice: Voice,
  nameOf: NameOf,
): string {
  const { runId, materialId, pieces, dryGrams, standardUncertaintyGrams, how } = glazing
  const dry = voice.massSure(dryGrams, standardUncertaintyGrams)
  const lost = voice.share(glazing.lossOnIgnitionFraction)
  return `${String(pieces)} of ${nameOf('run', runId)} took ${dry} of ${nameOf('material', materialId)}, dry: known ${HOW_GLAZED[how] ?? how}. The fire will take ${lost} of it.`
}

/** The clay and the pots that it began. */
function LeadsTo({ entry, nameOf }: { entry: EntryTraced; nameOf: NameOf }) {
  const made = [
    ...entry.links.madeLots.map((trail) => ({ trail, what: 'lot' as const })),
    ...entry.links.madeRuns.map((trail) => ({ trail, what: 'run' as const })),
  ]
  if (made.length === 0) return null
  return (
    <p>
      It began{' '}
      {made.map(({ trail, what }, index) => (
        <>
          {index === 0 ? '' : ', '}
          <a href={trailHref(trail)}>
            {nameOf(what, decodeURIComponent(trail.split('/').at(-1) ?? ''))}
          </a>
        </>
      ))}
      .
    </p>
  )
}
