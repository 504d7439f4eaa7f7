import type { Voice } from '../voice.ts'
import type { Slab } from './slab-figures.tsx'

/** Where the last weigh-in was of slab and bat together, what that tells and what not. */
export function Trap({ slab, voice }: { slab: Slab; voice: Voice }) {
  const pair = slab.pairs.at(-1)
  const alone = slab.weighIns.at(-1)
  const isLast =
    pair !== undefined && (alone === undefined || new Date(alone.at) < new Date(pair.at))
  if (!isLast) return null
  return (
    <p class="trap">
      <strong>Weighed with its bat.</strong>{' '}
      {pair.evaporatedGrams === null
        ? ''
        : `${voice.mass(pair.evaporatedGrams)} went into the air. `}
      {voice.words(pair.words)}
    </p>
  )
}
