import { decimal, toLedgerScale, type Decimal } from '../../shared/decimal.ts'
import { doubtBy, doubtOfSum, type Doubt } from '../../shared/doubt.ts'
import { sourceOf } from '../../shared/doubt-source.ts'

/** As the ledger keeps it: more water is less clay, and one sample is one source wherever it is said. */
export function doubtOfWater(
  { sample, waterUncertainty = 0 }: { sample?: string; waterUncertainty?: number },
  at: { netRead: number; entryId: string; weighingNo: number },
): Doubt {
  const { netRead, entryId, weighingNo } = at
  const source =
    sample === undefined
      ? sourceOf('sample', entryId, String(weighingNo))
      : sourceOf('test', `of ${sample}`)
  return doubtBy(source, grams(-netRead * waterUncertainty))
}

/** What an opening is unsure of, its water and its mass, each a source of its own. */
export function openingDoubt(
  id: string,
  { unsure, ofMass }: { unsure: number; ofMass: number },
): Doubt {
  const ofWater = Math.sqrt(Math.max(0, unsure ** 2 - ofMass ** 2))
  return doubtOfSum([
    doubtBy(sourceOf('merged_water', `opening of ${id}`), grams(-ofWater)),
    doubtBy(sourceOf('reading', `opening of ${id}`), grams(ofMass)),
  ])
}

function grams(value: number): Decimal {
  return toLedgerScale(decimal(value.toFixed(9)))
}
