import type { Page } from 'playwright-core'
import { PLACE_WORDS, type Place } from '../../../shared/place.ts'
import { writtenMassSure } from '../../../shared/written-mass.ts'
import { decimal } from '../../../shared/decimal.ts'

/** What the API says of a month, as far as its sheet prints it. */
export interface MonthAnswer {
  readonly summary: readonly {
    readonly row: string
    readonly isBalance: boolean
    readonly isWorld: boolean
    readonly shown: { readonly dryKilograms: string; readonly cost: string }
  }[]
}

export interface StockAnswer {
  readonly places: readonly {
    readonly place: string | null
    readonly dryGrams: string
    readonly standardUncertaintyGrams: string
  }[]
}

export interface YieldAnswer {
  readonly forms: readonly {
    readonly formName: string
    readonly stages: readonly { readonly yieldFraction: string | null }[]
  }[]
}

/** Each line of the month's sheet by its row: mass in kilograms and money, without their signs. */
export async function monthOnPage(page: Page): Promise<Record<string, string[]>> {
  const rows = page.locator('tr[data-row]')
  const found = await rows.evaluateAll((all) =>
    all.map((row) => [
      (row as HTMLElement).dataset['row'] ?? '',
      [...row.querySelectorAll('td')].map((cell) => cell.querySelector('a')?.textContent ?? ''),
    ]),
  )
  const figures = found as [string, string[]][]
  return Object.fromEntries(figures.map(([row, cells]) => [row, cells.map(unsigned)]))
}

/** The same from the API: rows that are not printed because nothing is in them are left out. */
export function monthAsPrinted({ summary }: MonthAnswer): Record<string, string[]> {
  return Object.fromEntries(
    summary
      .filter(({ row, shown, isBalance, isWorld }) => {
        const isSome = !decimal(shown.dryKilograms).isZero() || !decimal(shown.cost).isZero()
        return isSome || ALWAYS.includes(row) || (!isBalance && !isWorld)
      })
      .map(({ row, shown }) => [row, [shown.dryKilograms, shown.cost].map(unsigned)]),
  )
}

/** Lines that are printed though nothing is in them. */
const ALWAYS = ['opening', 'bought', 'sold', 'unexplained', 'closing']

function unsigned(figure: string): string {
  return figure.replace(/^[+\u2212-]/, '').trim()
}

/** Where the clay is, place by place, as the stock page has it. */
export async function stockOnPage(page: Page): Promise<Record<string, string>> {
  const rows = page.locator('table').first().locator('tbody tr')
  const found = await rows.evaluateAll((all) =>
    all.map((row) => [
      row.querySelector('th')?.firstChild?.textContent?.trim() ?? '',
      row.querySelector('td a')?.textContent?.trim() ?? '',
    ]),
  )
  return Object.fromEntries((found as [string, string][]).filter(([name]) => name !== 'Together'))
}

export function stockAsPrinted({ places }: StockAnswer): Record<string, string> {
  return Object.fromEntries(
    places
      .filter(({ place }) => place !== null)
      .map((row) => [
        PLACE_WORDS[row.place as Place],
        writtenMassSure(
          {
            grams: decimal(row.dryGrams),
            standardUncertaintyGrams: decimal(row.standardUncertaintyGrams),
          },
          'metric',
        ),
      ]),
  )
}

/** The shares that come through, form by form, in the order of the stages. */
export async function yieldOnPage(page: Page): Promise<Record<string, string[]>> {
  const found = await page
    .locator('section.report-of')
    .evaluateAll((all) =>
      all.map((section) => [
        section.querySelector('h2')?.textContent?.trim() ?? '',
        [...section.querySelectorAll('dl.stages dd')].map((dd) => dd.firstChild?.textContent ?? ''),
      ]),
    )
  const sections = (found as [string, string[]][]).filter(([name]) => !TOGETHER.includes(name))
  return Object.fromEntries(
    sections.map(([name, shares]) => [name, shares.filter((share) => share.includes('%'))]),
  )
}

/** What sums the forms up. */
const TOGETHER = ['All forms', 'One-offs together']

export function yieldAsPrinted({ forms }: YieldAnswer): Record<string, string[]> {
  return Object.fromEntries(
    forms.map(({ formName, stages }) => [
      formName,
      stages.flatMap(({ yieldFraction }) =>
        yieldFraction === null ? [] : [`${decimal(yieldFraction).times(100).toFixed(1)} %`],
      ),
    ]),
  )
}
