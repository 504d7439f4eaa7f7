import { Page } from './layout.tsx'

/** What this is, and where to go from here. */
export function WelcomePage({ month }: { month: string }) {
  return (
    <Page title="Slakebook">
      <h1>Slakebook</h1>
      <p>
        Slakebook keeps the books of a pottery’s clay by mass: from the bag over the wheel, through
        the slaking bucket and the plaster and back, to the fired and sold piece. Clay is never
        used, only moved: every entry moves dry clay, water, pieces and cost between places, and
        each of the four adds up to zero. So what was bought, what left as pots, what is still there
        and what nobody can explain always come to the same sum.
      </p>
      <ul>
        <li>
          <a href="/v1">Every address of the API</a>, each with its fields and an example
        </li>
        <li>
          <a href="/v1/reports/stock">What is there now</a>
        </li>
        <li>
          <a href="/v1/reports/plaster">Which slab is ready, and when</a>
        </li>
        <li>
          <a href="/v1/reports/turning">Whether turning gets thinner</a>
        </li>
        <li>
          <a href={`/v1/reports/month?month=${month}&format=text`}>The report of this month</a>
        </li>
        <li>
          <a href="/problems">What may be refused</a>, and what to do then
        </li>
      </ul>
    </Page>
  )
}
