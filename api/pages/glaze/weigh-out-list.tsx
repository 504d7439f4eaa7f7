import type { WeighOut } from '../../../db/reports/glaze-batch.ts'
import type { Voice } from '../voice.ts'

/** Grams of what comes to kilograms, tenths of a gram of what does not: as scales show them. */
function toWeigh(grams: string, voice: Voice): string {
  const isKilograms = (grams.split('.')[0] ?? '').length > 3
  return voice.mass(grams, isKilograms ? 3 : 4)
}

/** What to weigh out, in digits that are read at arm's length; each line can be ticked off. */
export function WeighOutList({ list, voice }: { list: WeighOut; voice: Voice }) {
  const { ingredients, waterToAddGrams, waterTooMuchGrams, forRuns } = list
  const isTooWet = waterTooMuchGrams !== '0'
  return (
    <section class="weigh-out" id="weigh-out">
      <h2>Weigh out</h2>
      {list.isEnough && forRuns === null ? null : <p class="remark">{list.words}</p>}
      <ol>
        {ingredients.map((line) => (
          <li>
            <label>
              <input type="checkbox" />
              <span class="what">
                {line.name}
                {line.isAddition ? <small>addition</small> : null}
                {line.isEnough ? null : (
                  <small class="too-little">
                    {voice.mass(line.missingDryGrams)} too little on the shelf
                  </small>
                )}
              </span>
              <strong class="how-much">{toWeigh(line.asSuppliedGrams, voice)}</strong>
            </label>
          </li>
        ))}
        <li class="water">
          <label>
            <input type="checkbox" />
            <span class="what">Water</span>
            <strong class="how-much">{voice.mass(waterToAddGrams)}</strong>
          </label>
        </li>
      </ol>
      {isTooWet ? (
        <p class="remark">
          The powders bring {voice.mass(waterTooMuchGrams)} of water too much: it gets thinner.
        </p>
      ) : null}
      <BatchFigures list={list} voice={voice} />
      {forRuns === null ? null : (
        <p>
          For these pots {voice.mass(forRuns.neededDryGrams)} dry;{' '}
          {voice.mass(forRuns.inBucketDryGrams)} is in the bucket.
        </p>
      )}
      <p class="hint">
        As the powder lies in its sack. Powder into water, gently, and then stir: never water onto
        powder. Sacks and full buckets are heavy: two people, or a trolley.
      </p>
    </section>
  )
}

/** `12.3 l` */
function litres(millilitres: string): string {
  const whole = (millilitres.split('.')[0] ?? '0').padStart(4, '0')
  return `${whole.slice(0, -3)}.${whole.slice(-3, -1)} l`
}

/** What it comes to. */
function BatchFigures({ list, voice }: { list: WeighOut; voice: Voice }) {
  return (
    <dl class="figures">
      <div>
        <dt>Dry</dt>
        <dd>{voice.mass(list.dryGrams)}</dd>
      </div>
      <div>
        <dt>Fills</dt>
        <dd>{litres(list.millilitres)}</dd>
      </div>
      <div>
        <dt>Cost</dt>
        <dd>{list.cost === null ? 'not known' : voice.money(list.cost)}</dd>
      </div>
    </dl>
  )
}
