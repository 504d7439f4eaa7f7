import axe from 'axe-core'
import type { Page } from 'playwright-core'

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

/** What on a page keeps somebody out: the rule, the place, and why; none where it is open to all. */
export async function barriersOn(page: Page): Promise<string[]> {
  return runAxe(page, { type: 'tag', values: TAGS })
}

/** What of it is too faint to be read, which is all that changes with the light. */
export async function contrastOn(page: Page): Promise<string[]> {
  return runAxe(page, { type: 'rule', values: ['color-contrast'] })
}

async function runAxe(page: Page, runOnly: object): Promise<string[]> {
  await page.evaluate(axe.source)
  const choices = JSON.stringify({ runOnly, resultTypes: ['violations'] })
  const { violations }: Results = await page.evaluate(`axe.run(document, ${choices})`)
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary = '' }) => {
      const why = failureSummary.replaceAll(/\s+/g, ' ')
      return `${id} (${help}) at ${target.join(' ')}: ${why}`
    }),
  )
}

interface Results {
  readonly violations: readonly {
    readonly id: string
    readonly help: string
    readonly nodes: readonly { readonly target: string[]; readonly failureSummary?: string }[]
  }[]
}
