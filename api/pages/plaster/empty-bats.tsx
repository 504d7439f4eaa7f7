import type { PlasterBoard } from '../../../db/reports/plaster.ts'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'
import { near } from './near.ts'

export type EmptyBat = PlasterBoard['emptyBats'][number]

/** The bats that carry nothing, the driest first, with what they still drink. */
export function EmptyBats({ bats, voice }: { bats: readonly EmptyBat[]; voice: Voice }) {
  if (bats.length === 0) return null
  return (
    <section>
      <h2>Empty bats</h2>
      <ul class="empty-bats">
        {bats.map((bat) => (
          <li>
            <strong>{bat.batName}</strong> {emptyWords(bat, voice)}
            <span>{voice.words(bat.words)}</span>
            <span class="row">
              <a
                class="button"
                href={`/plaster/pour?bats=${bat.batId}`}
                aria-label={`Pour on it: ${bat.batName}`}
              >
                Pour on it
              </a>
              <a class="button" href={trailHref(bat.trail)} aria-label={`About it: ${bat.batName}`}>
                About it
              </a>
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** Since when it lies empty, and what it held or drinks still. */
export function emptyWords(bat: EmptyBat, voice: Voice): string {
  const { emptySince, heldGrams, drinksStillGramsFrom: from, drinksStillGramsTo: to } = bat
  const since =
    emptySince === null ? 'nothing lay on it yet' : `empty since ${near(emptySince, voice)}`
  if (heldGrams === null || from === null || to === null) return since
  return `${since}; then it held ${voice.mass(heldGrams)} of water and still drank ${voice.mass(from)} to ${voice.mass(to)}`
}
