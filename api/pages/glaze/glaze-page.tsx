import type { WaitingForGlaze } from '../../../db/reports/glaze-waiting.ts'
import type { Material } from '../things.ts'
import type { Voice } from '../voice.ts'
import { BucketFigures } from './bucket-figures.tsx'
import { FoodContact } from './food-contact.tsx'
import type { GlazeBucket } from './here.ts'

interface GlazePageProps {
  readonly buckets: readonly GlazeBucket[]
  readonly waiting: readonly WaitingForGlaze[]
  readonly glazes: readonly Material[]
  readonly voice: Voice
}

/** The buckets of glaze, and the bisque that waits for them. */
export function GlazePage({ buckets, waiting, glazes, voice }: GlazePageProps) {
  const bare = waiting.filter(({ glazes: on }) => on === null)
  const glazed = waiting.filter(({ glazes: on }) => on !== null)
  return (
    <>
      <h1>Glaze</h1>
      {buckets.length === 0 ? <p>By the books no bucket holds glaze yet.</p> : null}
      {buckets.map((bucket) => (
        <section class="glaze-bucket" aria-label={`${bucket.materialName}, ${bucket.vesselName}`}>
          <h2>
            <a href={`/glaze/bucket/${bucket.vesselId}`}>{bucket.materialName}</a>
            <small>{bucket.vesselName}</small>
          </h2>
          <BucketFigures bucket={bucket} voice={voice} />
          <p class="bucket-acts">
            <a class="button main" href={`/glaze/dip/${bucket.vesselId}`} data-offline>
              Glaze pots
            </a>
            <a class="button" href={`/glaze/read/${bucket.vesselId}`} data-offline>
              Read it
            </a>
          </p>
        </section>
      ))}
      <p>
        <a class="button" href="/glaze/mix">
          Mix a glaze
        </a>
      </p>
      <h2>Waiting to be glazed</h2>
      <Pots pots={bare} none="No bisque waits." />
      {glazed.length === 0 ? null : (
        <>
          <h2>Glazed, waiting for the fire</h2>
          <Pots pots={glazed} none="" />
        </>
      )}
      {glazes.length === 0 ? null : (
        <>
          <h2>Recipes</h2>
          <ul class="targets">
            {glazes.map(({ materialId, name }) => (
              <li>
                <a class="target" href={`/glaze/recipe/${materialId}`}>
                  <strong>{name}</strong>
                </a>
              </li>
            ))}
          </ul>
        </>
      )}
      <FoodContact voice={voice} />
    </>
  )
}

function Pots({ pots, none }: { pots: readonly WaitingForGlaze[]; none: string }) {
  if (pots.length === 0) return <p class="quiet">{none}</p>
  return (
    <ul class="targets">
      {pots.map(({ runId, label, formName, pieces, glazes }) => (
        <li>
          <a class="target" href={`/wheel/run/${runId}`}>
            <strong>
              {label} <span class="many">{pieces}</span>
            </strong>
            <span>{glazes === null ? formName : `${formName}, ${glazes}`}</span>
          </a>
        </li>
      ))}
    </ul>
  )
}
