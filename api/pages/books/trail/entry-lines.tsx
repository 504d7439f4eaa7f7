import type { LineView } from '../../../../db/entry-shown.ts'
import type { NameOf } from '../../../../db/reports/names.ts'
import { isInside, PLACE_WORDS, type Place } from '../../../../shared/place.ts'
import type { Voice } from '../../voice.ts'

interface EntryLinesProps {
  readonly lines: readonly LineView[]
  readonly voice: Voice
  readonly nameOf: NameOf
}

/** What left where and came where; each column adds up to nothing. */
export function EntryLines({ lines, voice, nameOf }: EntryLinesProps) {
  if (lines.length === 0) return <p>Nothing moved: it was only looked at.</p>
  const has = (column: 'pieces' | 'cost') => lines.some((line) => line[column] !== '0')
  const shown = { hasPieces: has('pieces'), hasCost: has('cost') }
  const from = lines.filter((line) => isFrom(line))
  const to = lines.filter((line) => !isFrom(line))
  return (
    <>
      <h2>What moved</h2>
      <table class="moved">
        <caption>From the first to the second; each column adds up to nothing.</caption>
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col" class="number">
              Dry clay
            </th>
            <th scope="col" class="number">
              Water
            </th>
            {shown.hasPieces ? (
              <th scope="col" class="number">
                Pieces
              </th>
            ) : null}
            {shown.hasCost ? (
              <th scope="col" class="number">
                Cost
              </th>
            ) : null}
          </tr>
        </thead>
        <Side heading="From" lines={from} voice={voice} nameOf={nameOf} {...shown} />
        <Side heading="To" lines={to} voice={voice} nameOf={nameOf} {...shown} />
      </table>
    </>
  )
}

/** What gives clay gives; where none moves, what gives water, pieces or cost. */
function isFrom({ dryGrams, waterGrams, pieces, cost }: LineView): boolean {
  const moved = [dryGrams, waterGrams, pieces, cost].find((amount) => amount !== '0')
  return moved?.startsWith('-') ?? false
}

interface SideProps extends EntryLinesProps {
  readonly heading: string
  readonly hasPieces: boolean
  readonly hasCost: boolean
}

function Side({ heading, lines, voice, nameOf, hasPieces, hasCost }: SideProps) {
  if (lines.length === 0) return null
  const sign = (amount: string) => (amount === '0' || amount.startsWith('-') ? '' : '+')
  return (
    <tbody>
      <tr class="side">
        <th scope="rowgroup" colspan={3 + Number(hasPieces) + Number(hasCost)}>
          {heading}
        </th>
      </tr>
      {lines.map((line) => (
        <tr>
          <th scope="row">
            <WhereTo line={line} nameOf={nameOf} />
          </th>
          <Cell amount={line.dryGrams} written={sign(line.dryGrams) + voice.mass(line.dryGrams)} />
          <Cell
            amount={line.waterGrams}
            written={sign(line.waterGrams) + voice.mass(line.waterGrams)}
          />
          {hasPieces ? (
            <Cell amount={line.pieces} written={sign(line.pieces) + line.pieces} />
          ) : null}
          {hasCost ? (
            <Cell amount={line.cost} written={sign(line.cost) + voice.money(line.cost)} />
          ) : null}
        </tr>
      ))}
    </tbody>
  )
}

function WhereTo({ line, nameOf }: { line: LineView; nameOf: NameOf }) {
  const place = line.place as Place
  const href = `/books/trail/holding/${line.holdingId}`
  if (!isInside(place)) return <a href={href}>{PLACE_WORDS[place]}</a>
  return (
    <>
      <a href={href}>{nameOf('holding', line.holdingId)}</a>
      <small>
        {PLACE_WORDS[place]}
        {line.grade === null ? '' : `, ${line.grade}s`}
      </small>
    </>
  )
}

function Cell({ amount, written }: { amount: string; written: string }) {
  return <td class="number">{amount === '0' ? '' : written}</td>
}
