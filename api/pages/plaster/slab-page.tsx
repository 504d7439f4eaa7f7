import { decimal } from '../../../shared/decimal.ts'
import { slabStanding } from '../../../shared/plaster-urgency.ts'
import { KIND_WORDS } from '../entry-words.ts'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'
import { near } from './near.ts'
import { SlabActs } from './slab-acts.tsx'
import { SlabCurve } from './slab-curve.tsx'
import { SlabFigures, type Slab } from './slab-figures.tsx'
import { SlabHistory } from './slab-history.tsx'
import { Standing } from './standing.tsx'
import { Trap } from './trap.tsx'

interface SlabProps {
  readonly slab: Slab
  readonly voice: Voice
}

/** One slab: how it stands, what to do, what is known of it and by which weigh-ins. */
export function SlabPage({ slab, voice }: SlabProps) {
  const standing = slabStanding(slab)
  return (
    <div class="slab-page">
      <h1>Slab on {slab.batName}</h1>
      <p>
        {slab.bodyName}. {laidWords(slab, voice)}
      </p>
      {slab.endedAt === null ? (
        <Standing standing={standing} />
      ) : (
        <Gone slab={slab} voice={voice} />
      )}
      {slab.advice === null ? null : <p class="advice">{voice.words(slab.advice.words)}</p>}
      {slab.endedAt === null ? <SlabActs slab={slab} standing={standing} /> : null}
      <SlabFigures slab={slab} voice={voice} />
      <SlabCurve slab={slab} voice={voice} />
      <Trap slab={slab} voice={voice} />
      <Weighs slab={slab} voice={voice} />
      <p class="quiet">
        What stands below a figure is where it lies nine times in ten. It rests on{' '}
        {voice.words(slab.restsOn)}.
      </p>
      <BatBelow slab={slab} voice={voice} />
      <WaterWent slab={slab} voice={voice} />
      <SlabHistory slab={slab} voice={voice} />
      <p>
        <a href={trailHref(slab.trail)}>All that was done with this slab</a>
      </p>
    </div>
  )
}

function laidWords(
  { laidBy, laidAt, laidGrams, thicknessMillimetres }: Slab,
  voice: Voice,
): string {
  const how = { pour: 'Poured', move_load: 'Moved here', open_books: 'Here since the books began' }
  const parts = [
    `${how[laidBy]} ${near(laidAt, voice)}`,
    laidGrams === null ? '' : voice.mass(laidGrams),
    thicknessMillimetres === null ? '' : `${thicknessMillimetres} mm thick`,
  ]
  return `${parts.filter((part) => part !== '').join(', ')}.`
}

function Gone({ slab, voice }: SlabProps) {
  const { endedAt, endedBy } = slab
  if (endedAt === null) return null
  const how = KIND_WORDS[endedBy as keyof typeof KIND_WORDS] ?? 'Gone'
  return (
    <p class="slab-gone">
      <strong>{voice.words(how)}</strong> {near(endedAt, voice)}. It lies on this bat no more.{' '}
      <a href={`/books/trail/lot/${slab.lotId}`}>Where its clay went</a>
    </p>
  )
}

/** What the scale will show when it is ready: the figure to look for. */
function Weighs({ slab, voice }: SlabProps) {
  const { waterToGoGrams: toGo, waterToGoGramsFrom: from, waterToGoGramsTo: to } = slab
  const isNow = slab.endedAt === null
  return (
    <dl class="figures">
      <div>
        <dt>Ready when it weighs</dt>
        <dd>
          {voice.massSure(slab.readyGrams, slab.readyStandardUncertaintyGrams)}
          <small>{voice.share(slab.readyWaterContentWetBasis)} water</small>
        </dd>
      </div>
      {slab.slabNowGrams === null ? null : (
        <div>
          <dt>{isNow ? 'Weighs now, about' : 'Weighed then, about'}</dt>
          <dd>{voice.mass(slab.slabNowGrams)}</dd>
        </div>
      )}
      {toGo === null || from === null || to === null ? null : (
        <div>
          <dt>{decimal(toGo).isNegative() ? 'Water too little' : 'Water still to go'}</dt>
          <dd>
            {voice.mass(decimal(toGo).abs())}
            <small>
              {voice.mass(from)} to {voice.mass(to)}
            </small>
          </dd>
        </div>
      )}
      <div>
        <dt>Dry clay in it</dt>
        <dd>{voice.massSure(slab.dryGrams, slab.dryStandardUncertaintyGrams)}</dd>
      </div>
    </dl>
  )
}

function BatBelow({ slab, voice }: SlabProps) {
  const { bat } = slab
  const from = bat.drinksStillGramsFrom
  const to = bat.drinksStillGramsTo
  return (
    <section>
      <h2>The bat below it</h2>
      <p>{voice.words(bat.words)}</p>
      {bat.holdsGrams === null ? null : (
        <dl class="figures">
          <div>
            <dt>{bat.standing === 'at_most' ? 'Holds at most' : 'Held'}</dt>
            <dd>
              {voice.mass(bat.holdsGrams)}
              <small>
                of water
                {bat.heldFractionOfDry === null
                  ? ''
                  : `, ${voice.share(bat.heldFractionOfDry)} of its dry mass`}
              </small>
            </dd>
          </div>
          {from === null || to === null ? null : (
            <div>
              <dt>Still drinks</dt>
              <dd>
                {voice.mass(from)} to {voice.mass(to)}
              </dd>
            </div>
          )}
        </dl>
      )}
    </section>
  )
}

function WaterWent({ slab: { waterWent }, voice }: SlabProps) {
  if (waterWent === null) return null
  return (
    <section>
      <h2>Where its water went</h2>
      <p>As both were weighed, {near(waterWent.at, voice)}.</p>
      <dl class="figures">
        <div>
          <dt>Left the slab</dt>
          <dd>{voice.massSure(waterWent.leftGrams, waterWent.leftStandardUncertaintyGrams)}</dd>
        </div>
        <div>
          <dt>Into the plaster</dt>
          <dd>{voice.massSure(waterWent.drunkGrams, waterWent.drunkStandardUncertaintyGrams)}</dd>
        </div>
        <div>
          <dt>Into the air</dt>
          <dd>
            {voice.massSure(
              waterWent.evaporatedGrams,
              waterWent.evaporatedStandardUncertaintyGrams,
            )}
          </dd>
        </div>
      </dl>
    </section>
  )
}
