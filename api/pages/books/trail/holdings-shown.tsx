import type { HoldingView } from '../../../../db/holding-view.ts'
import type { Passage } from '../../../../db/passages.ts'
import type { NameOf } from '../../../../db/reports/names.ts'
import type { EntryKind } from '../../../../shared/entry-kind.ts'
import { isInside, PLACE_WORDS, type Place } from '../../../../shared/place.ts'
import { KIND_WORDS } from '../../entry-words.ts'
import { trailHref } from '../../trail-href.ts'
import type { Voice } from '../../voice.ts'

interface Shown {
  readonly voice: Voice
  readonly nameOf: NameOf
}

/** A holding by its name and its place; one outside by its place alone. */
export function HoldingName(props: {
  readonly holding: {
    readonly holdingId: string
    readonly place: string
    readonly grade?: string | null
  }
  readonly nameOf: NameOf
}) {
  const { holdingId, place, grade } = props.holding
  const words = PLACE_WORDS[place as Place]
  const href = `/books/trail/holding/${holdingId}`
  if (!isInside(place as Place)) return <a href={href}>{words}</a>
  return (
    <>
      <a href={href}>{props.nameOf('holding', holdingId)}</a>
      <small>
        {words}
        {grade === null || grade === undefined ? '' : `, ${grade}s`}
      </small>
    </>
  )
}

/** What is where, with how sure that is. */
export function HoldingsTable(props: Shown & { readonly holdings: readonly HoldingView[] }) {
  const { holdings, voice, nameOf } = props
  if (holdings.length === 0) return <p>Nothing of it is here now.</p>
  return (
    <div class="across">
      <table>
        <thead>
          <tr>
            <th scope="col">What and where</th>
            <th scope="col" class="number">
              Pieces
            </th>
            <th scope="col" class="number">
              Dry clay
            </th>
            <th scope="col" class="number">
              Cost
            </th>
          </tr>
        </thead>
        <tbody>
          {holdings.map((holding) => (
            <tr>
              <th scope="row">
                <HoldingName holding={holding} nameOf={nameOf} />
              </th>
              <td class="number">{holding.pieces === '0' ? '' : holding.pieces}</td>
              <td class="number">{drySure(holding, voice)}</td>
              <td class="number">{holding.cost === '0' ? '' : voice.money(holding.cost)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

function drySure(
  { isInside: isHere, dryGrams, standardUncertaintyGrams }: HoldingView,
  voice: Voice,
) {
  return isHere ? voice.massSure(dryGrams, standardUncertaintyGrams) : ''
}

/** Clay that came from somewhere, or went somewhere, by what happened. */
export function Passages(props: Shown & { readonly passages: readonly Passage[] }) {
  const { passages, voice, nameOf } = props
  if (passages.length === 0) return <p>None.</p>
  return (
    <ul class="happened">
      {passages.map((passage) => (
        <li>
          <HoldingName holding={passage} nameOf={nameOf} />
          <span class="quiet">
            {voice.words(KIND_WORDS[passage.kind as EntryKind])}: {voice.mass(passage.dryGrams)} dry
            clay{passage.cost === '0' ? '' : `, ${voice.money(passage.cost)}`}
            {passage.entries === 1 ? '' : `, ${String(passage.entries)} times`}
            {passage.isShare ? '; a share, because nobody knows which went where' : ''}
          </span>
        </li>
      ))}
    </ul>
  )
}

/** Links that lead on, each with its words; those that lead nowhere are left out. */
export function LeadsOn({ links }: { links: readonly (readonly [string, string | null])[] }) {
  return (
    <ul class="leads-on">
      {links.map(([words, trail]) =>
        trail === null ? null : (
          <li>
            <a href={trailHref(trail)}>{words}</a>
          </li>
        ),
      )}
    </ul>
  )
}
