import { stockReport, type StockReport } from '../../../db/reports/stock.ts'
import { PLACE_WORDS } from '../../../shared/place.ts'
import { newRouter } from '../../router.ts'
import { HoldingList } from '../counting/holdings-here.tsx'
import { Ways } from '../first-needed.tsx'
import { show } from '../show.tsx'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'

/** What is there now, by clay and place and holding by holding. */
export const stock = newRouter()

stock.get('/books/stock', async (c) => {
  const voice = c.get('voice')
  const report = await stockReport(c.get('services').db, { studioId: c.get('studioId') })
  const names = new Map(report.holdings.map(({ bodyId, bodyName }) => [bodyId, bodyName]))
  return show(
    c,
    { title: 'Stock', here: 'books' },
    <>
      <h1>Stock</h1>
      {report.holdings.length === 0 ? <NothingHere /> : null}
      {report.holdings.length === 0 ? null : (
        <>
          <Total report={report} voice={voice} />
          {report.bodies.map((body) => (
            <OneClay report={report} bodyId={body.bodyId ?? ''} names={names} voice={voice} />
          ))}
          <HoldingList
            holdings={report.holdings}
            voice={voice}
            href={({ trail }) => trailHref(trail)}
          />
        </>
      )}
      <div class="off-paper">
        <h2>Next</h2>
        <Ways
          ways={[
            { href: '/wheel/throw', name: 'Throw' },
            { href: '/books/open-bag', name: 'Open bags' },
            { href: '/books/delivery', name: 'Clay came in' },
            { href: '/books/count', name: 'Count what is here' },
          ]}
        />
        <p>
          <a href="/books">The books</a>
        </p>
      </div>
    </>,
  )
})

function NothingHere() {
  return (
    <>
      <p>By the books nothing is here yet.</p>
      <Ways
        ways={[
          {
            href: '/books/opening',
            name: 'Begin with what is here',
            words: 'bags, open clay, buckets, pots',
          },
        ]}
      />
    </>
  )
}

interface Shown {
  readonly report: StockReport
  readonly voice: Voice
}

function Total({ report, voice }: Shown) {
  const { total } = report
  return (
    <dl class="figures">
      <div>
        <dt>Dry clay</dt>
        <dd>
          <a href={trailHref(total.trail)}>
            {voice.massSure(total.dryGrams, total.standardUncertaintyGrams)}
          </a>
        </dd>
      </div>
      <div>
        <dt>With its water</dt>
        <dd>{voice.mass(total.wetGrams)}</dd>
      </div>
      <div>
        <dt>Bags</dt>
        <dd>{total.bags}</dd>
      </div>
      <div>
        <dt>Pots</dt>
        <dd>{total.pots}</dd>
      </div>
      <div>
        <dt>What it cost</dt>
        <dd>{voice.money(total.cost)}</dd>
      </div>
    </dl>
  )
}

/** One clay by where it is, with its sum. */
function OneClay(props: Shown & { bodyId: string; names: ReadonlyMap<string, string> }) {
  const { report, bodyId, names, voice } = props
  const name = names.get(bodyId) ?? bodyId
  const rows = report.rows.filter((row) => row.bodyId === bodyId)
  const sums = report.bodies.filter((row) => row.bodyId === bodyId)
  return (
    <div class="scrolls" tabindex={0} role="region" aria-label={name}>
      <table>
        <caption>{name}</caption>
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col" class="number">
              Dry clay
            </th>
            <th scope="col" class="number">
              Cost
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <StockRow
              row={row}
              voice={voice}
              name={row.place === null ? '' : voice.words(PLACE_WORDS[row.place])}
            />
          ))}
        </tbody>
        <tfoot>
          {sums.map((row) => (
            <StockRow row={row} voice={voice} name="Together" />
          ))}
        </tfoot>
      </table>
    </div>
  )
}

function StockRow(props: { row: StockReport['rows'][number]; name: string; voice: Voice }) {
  const { row, name, voice } = props
  return (
    <tr>
      <th scope="row">
        {name}
        {row.bags === '0' ? null : <small>{row.bags} bags</small>}
        {row.pots === '0' ? null : <small>{row.pots} pieces</small>}
      </th>
      <td class="number">
        <a href={trailHref(row.trail)}>
          {voice.massSure(row.dryGrams, row.standardUncertaintyGrams)}
        </a>
        {row.waterContentWetBasis === null ? null : (
          <small>{voice.share(row.waterContentWetBasis)} water</small>
        )}
      </td>
      <td class="number">{voice.money(row.cost)}</td>
    </tr>
  )
}
