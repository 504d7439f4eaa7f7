import type { Voice } from '../voice.ts'
import { Ways } from '../first-needed.tsx'
import { trailHref } from '../trail-href.ts'
import { BucketFigures, density } from './bucket-figures.tsx'
import type { GlazeBucket } from './here.ts'

/** One bucket of glaze, and all that can be done with it. */
export function BucketPage({ bucket, voice }: { bucket: GlazeBucket; voice: Voice }) {
  const { vesselId, vesselName, materialId, materialName, covers, waterGrams, grossGrams } = bucket
  return (
    <>
      <h1>{materialName}</h1>
      <p class="quiet">
        In {vesselName}. With the bucket it should weigh {voice.mass(grossGrams)}; of that{' '}
        {voice.mass(waterGrams)} is water. By the books its density is{' '}
        {density(bucket.gramsPerMillilitreByBooks)}.
      </p>
      <BucketFigures bucket={bucket} voice={voice} />
      <Ways
        ways={[
          { href: `/glaze/dip/${vesselId}`, name: 'Glaze pots', words: 'as usual, or weighed' },
          { href: `/glaze/read/${vesselId}`, name: 'Read it', words: 'its weight and its density' },
          {
            href: `/glaze/water/${vesselId}`,
            name: 'Water in or off',
            words: 'to thin or thicken',
          },
          {
            href: `/glaze/lose/${vesselId}`,
            name: 'Glaze lost',
            words: 'sieve, wash, spilt, thrown away',
          },
          { href: `/glaze/mix/${materialId}`, name: 'Mix more', words: 'what to weigh out' },
          { href: `/glaze/recipe/${materialId}`, name: 'Recipe', words: 'parts, cost, hazards' },
        ]}
      />
      {covers.length === 0 ? null : (
        <>
          <h2>Enough for</h2>
          <ul>
            {covers.map((form) => (
              <li>
                <strong>
                  {form.pieces} {form.formName}
                </strong>
                , {form.piecesFrom} to {form.piecesTo}: {voice.mass(form.dryGramsPerPiece)} dry on
                each. {voice.words(form.words)}
              </li>
            ))}
          </ul>
          <p class="hint">{bucket.words}</p>
        </>
      )}
      <p>
        <a href={trailHref(bucket.trail)}>How it came to that</a>
      </p>
    </>
  )
}
