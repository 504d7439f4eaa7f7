import type { LineView } from '../../../../db/entry-shown.ts'
import type { NameOf } from '../../../../db/reports/names.ts'
import { ALL_LAYERS, costIn, LAYER_WORDS, layersRead } from '../../../../shared/cost-layer.ts'
import { decimal } from '../../../../shared/decimal.ts'
import { isInside, PLACE_WORDS, type Place } from '../../../../shared/place.ts'
import type { Voice } from '../../voice.ts'

interface EntryLinesProps {
  readonly lines: readonly LineView[]
  readonly voice: Voice
  readonly nameOf: NameOf
}

type Column = 'dryGrams' | 'materialGrams' | 'waterGrams' | 'pieces' | 'cost'

const HEADINGS: Readonly<Record<Column, string>> = {
  dryGrams: 'Dry clay',
  materialGrams: 'Glaze, powder',
  waterGrams: 'Water',
  pieces: 'Pieces',
  cost: 'Cost',
}

/** What left where and came where; each column adds up to nothing. */
export function EntryLines({ lines, voice, nameOf }: EntryLinesProps) {
  if (lines.length === 0) return <p>Nothing moved: it was only looked at.</p>
  const columns = columnsOf(lines)
  const from = lines.filter((line) => isFrom(line))
  const to = lines.filter((line) => !isFrom(line))
  return (
    <>
      <h2>What moved</h2>
      <table class="moved by-line">
        <caption>From the first to the second; each column adds up to nothing.</caption>
        <thead>
          <tr>
            <th scope="col">Where</th>
            {columns.map((column) => (
              <th scope="col" class="number">
                {HEADINGS[column]}
              </th>
            ))}
          </tr>
        </thead>
        <Side heading="From" lines={from} voice={voice} nameOf={nameOf} columns={columns} />
        <Side heading="To" lines={to} voice={voice} nameOf={nameOf} columns={columns} />
      </table>
    </>
  )
}

/** Clay and water always, but where materials alone moved; the others where there is something of them. */
function columnsOf(lines: readonly LineView[]): Column[] {
  const has = (column: Column) => lines.some((line) => line[column] !== '0')
  const isClay = has('dryGrams') || !has('materialGrams')
  const isCounted = lines.every(({ materialId }) => materialId !== null)
  const all: Column[] = ['dryGrams', 'materialGrams', 'waterGrams', 'pieces', 'cost']
  return all.filter((column) => {
    if (column === 'dryGrams') return isClay && !isCounted
    if (column === 'waterGrams') return isClay && !isCounted ? true : has(column)
    return has(column)
  })
}

/** What gives clay gives; where none moves, what gives glaze, water, pieces or cost. */
function isFrom({ dryGrams, materialGrams, waterGrams, pieces, cost }: LineView): boolean {
  const amounts = [dryGrams, materialGrams, waterGrams, pieces, cost]
  return amounts.find((amount) => amount !== '0')?.startsWith('-') ?? false
}

interface SideProps extends EntryLinesProps {
  readonly heading: string
  readonly columns: readonly Column[]
}

function Side({ heading, lines, voice, nameOf, columns }: SideProps) {
  if (lines.length === 0) return null
  return (
    <tbody>
      <tr class="side">
        <th scope="rowgroup" colspan={1 + columns.length}>
          {heading}
        </th>
      </tr>
      {lines.map((line) => (
        <tr>
          <th scope="row">
            <WhereTo line={line} nameOf={nameOf} />
            <LayersOfLine line={line} voice={voice} />
          </th>
          {columns.map((column) => (
            <Cell amount={line[column]} written={writtenIn(column, line[column], voice)} />
          ))}
        </tr>
      ))}
    </tbody>
  )
}

function writtenIn(column: Column, amount: string, voice: Voice): string {
  const sign = amount === '0' || amount.startsWith('-') ? '' : '+'
  if (column === 'pieces') return sign + amount
  return sign + (column === 'cost' ? voice.money(amount) : voice.mass(amount))
}

/** What the cost of a line was paid for, where it is not all for clay. */
function LayersOfLine({ line, voice }: { line: LineView; voice: Voice }) {
  const of = { cost: decimal(line.cost), costLayers: layersRead(line.costLayers) }
  if (of.costLayers.size === 0) return null
  const layers = ALL_LAYERS.map((layer) => ({ layer, cost: costIn(of, layer) }))
  const paid = layers.filter(({ cost }) => !cost.isZero())
  const [only, other] = paid
  if (only !== undefined && other === undefined) {
    return <small class="layers">Cost: {LAYER_WORDS[only.layer]}.</small>
  }
  const words = paid.map(({ layer, cost }) => `${LAYER_WORDS[layer]} ${voice.money(cost)}`)
  return <small class="layers">Cost: {words.join(', ')}.</small>
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
