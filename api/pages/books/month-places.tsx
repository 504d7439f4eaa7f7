import { decimal } from '../../../shared/decimal.ts'
import { minorUnitDigits } from '../../../shared/money.ts'
import { columnUnit, massAlone, massParts, printedParts } from '../../../shared/month-printed.ts'
import { PLACE_WORDS, PLACES_INSIDE } from '../../../shared/place.ts'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'
import type { MonthRead, SheetProps } from './month-read.ts'

interface Column {
  readonly total: string
  readonly parts: readonly string[]
}

interface Balance {
  readonly mass: Column
  readonly cost: Column
}

/** What lay where when the month began and when it ended, each column adding up as printed. */
function balanceOf(read: MonthRead, row: 'opening' | 'closing', voice: Voice): Balance {
  const { massUnits, currency } = voice.studio
  const unit = columnUnit(massUnits)
  const flow = read.sheet.flows.find((one) => one.row === row)
  const cells = PLACES_INSIDE.map((place) => flow?.places[place])
  const mass = massAlone(decimal(flow?.total.dryGrams ?? '0'), unit)
  const cost = flow?.total.shown.cost ?? '0'
  const grams = cells.map((cell) => decimal(cell?.dryGrams ?? '0'))
  const money = cells.map((cell) => decimal(cell?.cost ?? '0'))
  return {
    mass: { total: mass, parts: massParts(mass, grams, unit) },
    cost: { total: cost, parts: printedParts(cost, money, minorUnitDigits(currency)) },
  }
}

/** The stock place by place, at both ends of the month. */
export function MonthPlaces({ read, voice }: SheetProps) {
  const [opening, closing] = [balanceOf(read, 'opening', voice), balanceOf(read, 'closing', voice)]
  const columns = [opening.mass, opening.cost, closing.mass, closing.cost]
  const rows = PLACES_INSIDE.map((place, index) => ({
    place,
    figures: columns.map(({ parts }) => parts[index] ?? ''),
    stock: read.stream.stocks.find((one) => one.place === place),
  })).filter(({ figures }) => figures.some((figure) => !decimal(figure).isZero()))
  if (rows.length === 0) return null
  return (
    <section>
      <h2>What lay where</h2>
      <table class="ledger places">
        <PlaceHeads voice={voice} />
        <tbody>
          {rows.map(({ place, figures, stock }) => (
            <tr>
              <th scope="row">{voice.words(PLACE_WORDS[place])}</th>
              {figures.map((figure, index) => (
                <td class="number">
                  <a
                    href={trailHref(
                      (index < 2 ? stock?.openingTrail : stock?.closingTrail) ?? '/v1/entries',
                    )}
                  >
                    {figure}
                  </a>
                </td>
              ))}
            </tr>
          ))}
          <tr class="balance">
            <th scope="row">all together</th>
            {columns.map(({ total }) => (
              <td class="number">{total}</td>
            ))}
          </tr>
        </tbody>
      </table>
    </section>
  )
}

function PlaceHeads({ voice }: { readonly voice: Voice }) {
  const { words } = columnUnit(voice.studio.massUnits)
  const { currency } = voice.studio
  return (
    <thead>
      <tr>
        <td></td>
        <th scope="colgroup" colspan={2} class="number">
          opening
        </th>
        <th scope="colgroup" colspan={2} class="number">
          closing
        </th>
      </tr>
      <tr>
        <td></td>
        {[words, currency, words, currency].map((unit) => (
          <th scope="col" class="number">
            {unit}
          </th>
        ))}
      </tr>
    </thead>
  )
}
