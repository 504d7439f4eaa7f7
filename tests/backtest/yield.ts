import { setImmediate as letOthersGo } from 'node:timers/promises'
import { leanedShares, type FormCount, type LeanedShares } from '../../shared/leaning.ts'
import { jeffreysInterval, wilsonInterval, type ShareInterval } from '../../shared/proportion.ts'
import { mixedQuantile } from '../../shared/spread-belief.ts'
import { betaQuantile } from '../../shared/statistics.ts'
import { FEW_PIECES_BELOW } from '../../shared/yield-leaning.ts'
import { Chance } from '../support/chance.ts'
import { coverageOf, nothingYet, outcomeOf, type Tally } from './coverage.ts'
import { heldCell, perCent, table } from './markdown.ts'

/** How many pieces of a form a studio has made: counted on a shelf, in a box, on one hand. */
const SIZES = {
  many: [40, 200],
  few: [2, 12],
  'one-off': [1, 1],
} as const
type Size = keyof typeof SIZES

/** How many forms of each size a studio has. */
const FORMS = { many: 4, few: 5, 'one-off': 6 } as const

/**
 * How alike forms are: so many pieces of a form's own would tell as much as knowing all forms. `same`
 * is the case that the fit of a spread does not contain: all forms have one share.
 */
const ALIKE = { 'differ much': 8, 'differ somewhat': 30, 'are the same': Infinity } as const
type Alike = keyof typeof ALIKE

const RULES = ['Wilson 90', 'leaned 90', 'reported 90'] as const
type Rule = (typeof RULES)[number]

/** What the intervals of one studio's forms did, by size and rule. */
export interface YieldStudio {
  readonly alike: Alike
  readonly tallies: Readonly<Record<Size, Readonly<Record<Rule, Tally>>>>
  readonly widths: readonly { readonly size: Size; readonly rule: Rule; readonly width: number }[]
}

interface TrueForm {
  readonly size: Size
  readonly share: number
  readonly count: FormCount
}

export const YIELD_SEED = 20_261_301
const CONFIDENCE = 0.9
const TAIL = (1 - CONFIDENCE) / 2
/** Of a stage of making: what passes it on the whole. */
const PASSED = { from: 0.75, to: 0.97 }

/** So many studios of each kind. */
export async function yieldStudios(
  studios: number,
  tell: (line: string) => void,
): Promise<YieldStudio[]> {
  const seen: YieldStudio[] = []
  for (const [kind, alike] of (Object.keys(ALIKE) as Alike[]).entries()) {
    const chance = new Chance(YIELD_SEED + kind)
    for (let one = 0; one < studios; one += 1) {
      seen.push(oneStudio(chance, alike))
      await letOthersGo()
    }
    tell(`yield: forms ${alike}, ${String(studios)} studios`)
  }
  return seen
}

function oneStudio(chance: Chance, alike: Alike): YieldStudio {
  const forms = trueForms(chance, alike)
  const leaned = leanedShares(forms.map(({ count }) => count))
  const tallies = { many: ruled(), few: ruled(), 'one-off': ruled() }
  const widths = forms.flatMap((form) =>
    RULES.map((rule) => {
      const { size } = form
      const interval = intervalBy(rule, { form, leaned })
      tallies[size][rule][outcomeOf(form.share, interval)] += 1
      return { size, rule, width: interval.to - interval.from }
    }),
  )
  return { alike, tallies, widths }
}

function ruled(): Record<Rule, Tally> {
  return { 'Wilson 90': nothingYet(), 'leaned 90': nothingYet(), 'reported 90': nothingYet() }
}

function trueForms(chance: Chance, alike: Alike): TrueForm[] {
  const mean = chance.between(PASSED.from, PASSED.to)
  const strength = ALIKE[alike]
  return (Object.keys(SIZES) as Size[]).flatMap((size) =>
    Array.from({ length: FORMS[size] }, (_, index) => {
      const share = Number.isFinite(strength)
        ? betaQuantile(chance.between(1e-9, 1), {
            alpha: mean * strength,
            beta: (1 - mean) * strength,
          })
        : mean
      const [from, to] = SIZES[size]
      const trials = chance.whole(from, to)
      let events = 0
      for (let piece = 0; piece < trials; piece += 1) if (chance.uniform() < share) events += 1
      return { size, share, count: { formId: `${size} ${String(index)}`, events, trials } }
    }),
  )
}

function intervalBy(rule: Rule, of: { form: TrueForm; leaned: LeanedShares }): ShareInterval {
  const { count } = of.form
  switch (rule) {
    case 'Wilson 90':
      return wilsonInterval({ ...count, confidence: CONFIDENCE })
    case 'leaned 90':
      return leaned90(count, of.leaned)
    case 'reported 90':
      return intervalBy(count.trials < FEW_PIECES_BELOW ? 'leaned 90' : 'Wilson 90', of)
  }
}

/** As the leaned intervals are made, at another confidence. */
function leaned90(count: FormCount, { forms }: LeanedShares): ShareInterval {
  const belief = forms.find(({ formId }) => formId === count.formId)?.belief ?? null
  if (belief === null) return jeffreysInterval({ ...count, confidence: CONFIDENCE })
  return { from: mixedQuantile(belief, TAIL), to: mixedQuantile(belief, 1 - TAIL) }
}

/** A row a kind of studio and a size of form. */
export function yieldTable(studios: readonly YieldStudio[]): string {
  const kinds = [...Object.keys(ALIKE), undefined] as (Alike | undefined)[]
  const lines = kinds.flatMap((alike) =>
    (Object.keys(SIZES) as Size[]).map((size) => {
      const some = studios.filter((studio) => (alike ?? studio.alike) === studio.alike)
      const widths = some.flatMap((studio) => studio.widths)
      return [
        alike ?? 'all',
        size,
        ...RULES.map((rule) =>
          heldCell(coverageOf(some.map(({ tallies }) => tallies[size][rule]))),
        ),
        RULES.map((rule) => perCent(meanWidth(widths, { size, rule }))).join(', '),
      ]
    }),
  )
  const held = RULES.map((rule) => `${rule} held %`)
  return table(['forms', 'pieces', ...held, 'mean width, points'], lines)
}

function meanWidth(
  widths: YieldStudio['widths'],
  asked: { readonly size: Size; readonly rule: Rule },
): number {
  const some = widths.filter(({ size, rule }) => size === asked.size && rule === asked.rule)
  return some.reduce((sum, { width }) => sum + width, 0) / Math.max(1, some.length)
}
