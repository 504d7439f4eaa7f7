import type { EntryTraced } from '../../../../db/reports/entries.ts'
import type { NameOf } from '../../../../db/reports/names.ts'
import { decimal } from '../../../../shared/decimal.ts'
import { giveOrTake } from '../../../../shared/how-sure.ts'
import { lossInWords } from '../../../../shared/loss-in-words.ts'
import { costsByLayer } from '../../../../shared/layers-in-words.ts'
import { fireInWords } from '../../fire-told.tsx'
import type { Voice } from '../../voice.ts'

interface Props {
  readonly entry: EntryTraced
  readonly voice: Voice
  readonly nameOf: NameOf
}

/** What a fire took, and what each run bore: enough to do the sum again by hand. */
export function EntryFiring({ entry, voice, nameOf }: Props) {
  const { firing } = entry
  if (firing === null) return null
  return (
    <>
      <h2>What the fire took</h2>
      <dl class="facts">
        {factsOf(firing, voice).map(([name, value]) => (
          <>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </>
        ))}
      </dl>
      {fireInWords(firing, voice).map((words) => (
        <p>{words}</p>
      ))}
      {firing.shares.length === 0 ? null : <Shares firing={firing} voice={voice} nameOf={nameOf} />}
    </>
  )
}

type Firing = NonNullable<EntryTraced['firing']>

const HOW_WORDS: Readonly<Record<string, string>> = {
  meter: 'read off the meter',
  said: 'as said',
  usual: 'as usual for this kiln',
  rule: 'by its power and hours',
  fuel: 'gas weighed',
}

function factsOf(firing: Firing, voice: Voice): [string, string][] {
  const how = firing.how
    .split('_and_')
    .map((way) => HOW_WORDS[way] ?? way)
    .join(', ')
  const facts: [string, string | null][] = [
    ['How it is known', `${how}, give or take ${voice.share(giveOrTakeOf(firing))}`],
    ['Electricity', inUnit(firing.kilowattHours, 'kWh')],
    ['Of it candling', unlessNothing(firing.candlingKilowattHours, 'kWh')],
    ['A kilowatt-hour', inUnit(firing.pricePerKilowattHour, voice.studio.currency)],
    ['Gas', firing.fuelGrams === null ? null : voice.mass(firing.fuelGrams)],
    ['Energy', voice.money(firing.energyCost)],
    [
      'Of it candling',
      decimal(firing.candlingCost).isZero() ? null : voice.money(firing.candlingCost),
    ],
    ['Elements and shelves', voice.money(firing.wearCost)],
    ['Shared out', firing.sharedByWords],
  ]
  return facts.filter((fact): fact is [string, string] => fact[1] !== null)
}

function giveOrTakeOf({ relativeUncertainty }: Firing) {
  return giveOrTake(decimal(relativeUncertainty))
}

function inUnit(amount: string | null, unit: string): string | null {
  return amount === null ? null : `${decimal(amount).toFixed()} ${unit}`
}

function unlessNothing(amount: string | null, unit: string): string | null {
  return amount === null || decimal(amount).isZero() ? null : inUnit(amount, unit)
}

const WEIGHT_WORDS: Readonly<Record<string, string>> = {
  shelf_space: 'Litres',
  mass: 'Dry grams',
  count: 'Pieces counted',
}

function Shares(props: { firing: Firing; voice: Voice; nameOf: NameOf }) {
  const { firing, voice, nameOf } = props
  return (
    <div class="wide">
      <table class="moved">
        <caption>
          Energy and wear, shared out by the first column: a run’s part of it is its part of each
          cost, to the last unit.
        </caption>
        <thead>
          <tr>
            {[
              'Run',
              'Pieces',
              WEIGHT_WORDS[firing.sharedBy ?? ''] ?? 'Counts',
              'Energy',
              'Wear',
            ].map((name, index) => (
              <th scope="col" class={index === 0 ? undefined : 'number'}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {firing.shares.map(({ runId, pieces, weight, energyCost, wearCost }) => (
            <tr>
              <th scope="row">
                <a href={`/books/trail/run/${encodeURIComponent(runId)}`}>{nameOf('run', runId)}</a>
              </th>
              <td class="number">{String(pieces)}</td>
              <td class="number">{decimal(weight).toDecimalPlaces(3).toFixed()}</td>
              <td class="number">{voice.money(energyCost)}</td>
              <td class="number">{voice.money(wearCost)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

/** What was lost: whether it is usual, and what is lost for good. */
export function EntryLosses({ entry, voice, nameOf }: Props) {
  const pots = (pieces: number) => `${String(pieces)} ${pieces === 1 ? 'piece' : 'pieces'}`
  return (
    <>
      {entry.losses.map((loss) => {
        const { runId, pieces, cause, costLeft, costAbnormal } = loss
        const left = decimal(costLeft).isZero()
          ? ''
          : ` Left to the others: ${voice.money(costLeft)}.`
        const gone = decimal(costAbnormal).isZero()
          ? ''
          : ` Lost for good: ${voice.money(costAbnormal)}.`
        return (
          <p>
            {voice.words(
              `${pots(pieces)} of ${nameOf('run', runId)} lost: ${cause}. ${lossInWords(loss)}`,
            )}
            {left}
            {gone}
          </p>
        )
      })}
    </>
  )
}

/** Of each line whose cost is not all clay, what it is made of. */
export function EntryLayers({ entry, voice, nameOf }: Props) {
  const lines = entry.lines.flatMap((line) => {
    const parts = costsByLayer(line)
    return parts === undefined ? [] : [{ line, parts }]
  })
  if (lines.length === 0) return null
  return (
    <>
      <h2>What the cost is made of</h2>
      <ul>
        {lines.map(({ line, parts }) => (
          <li>
            <a href={`/books/trail/holding/${line.holdingId}`}>
              {nameOf('holding', line.holdingId)}
            </a>
            : {parts.map(({ words, cost }) => `${words} ${signed(voice.money(cost))}`).join(', ')}
          </li>
        ))}
      </ul>
    </>
  )
}

/** No line ends between this minus and its figure. */
function signed(money: string): string {
  return money.replace('-', '−')
}
