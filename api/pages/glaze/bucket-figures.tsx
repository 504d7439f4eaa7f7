import { decimal } from '../../../shared/decimal.ts'
import { printedAmount } from '../../../shared/money.ts'
import type { Voice } from '../voice.ts'
import type { GlazeBucket } from './here.ts'

/** What is in a bucket: how much, how thick, what it cost, and for how many pots it is enough. */
export function BucketFigures({ bucket, voice }: { bucket: GlazeBucket; voice: Voice }) {
  const { dryGrams, sure, lastRead, cost, covers } = bucket
  return (
    <>
      <dl class="figures">
        <div class="whole">
          <dt>Dry glaze</dt>
          <dd>{voice.massSure(dryGrams, sure.standardUncertainty)}</dd>
        </div>
        <div>
          <dt>Density</dt>
          <dd>
            {density(lastRead?.gramsPerMillilitre ?? bucket.gramsPerMillilitreByBooks)}
            <small>{lastRead === null ? 'by the books' : `read ${voice.day(lastRead.at)}`}</small>
          </dd>
        </div>
        <div>
          <dt>Cost</dt>
          <dd>{voice.money(cost)}</dd>
        </div>
      </dl>
      {covers.length === 0 ? (
        <p class="quiet">
          How many pots it is enough for is not known yet: weigh it when you glaze, once a form.
        </p>
      ) : (
        <p class="enough">
          Enough for about{' '}
          {covers.map(({ formName, pieces }) => `${pieces} × ${formName}`).join(', or ')}.
        </p>
      )}
    </>
  )
}

/** Digits of a density that a scale and a jug can tell. */
const DIGITS = 2

/** `1.45 g/ml` */
export function density(gramsPerMillilitre: string): string {
  return `${printedAmount(decimal(gramsPerMillilitre), DIGITS)} g/ml`
}
