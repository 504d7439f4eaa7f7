import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'
import { near } from './near.ts'
import type { Slab } from './slab-figures.tsx'

interface HistoryProps {
  readonly slab: Slab
  readonly voice: Voice
}

/** Every weigh-in of a slab, the newest first, each with the way to its entry. */
export function SlabHistory({ slab, voice }: HistoryProps) {
  return (
    <section>
      <h2>Weighed</h2>
      {slab.weighIns.length === 0 ? (
        <p>The slab was not weighed alone yet.</p>
      ) : (
        <Alone slab={slab} voice={voice} />
      )}
      {slab.pairs.length === 0 ? null : <WithBat slab={slab} voice={voice} />}
    </section>
  )
}

function Alone({ slab, voice }: HistoryProps) {
  return (
    <table>
      <caption>The slab alone</caption>
      <thead>
        <tr>
          <th scope="col">When</th>
          <th scope="col" class="number">
            Slab
          </th>
          <th scope="col" class="number">
            Water
          </th>
        </tr>
      </thead>
      <tbody>
        {slab.weighIns.toReversed().map((one) => (
          <tr>
            <th scope="row">
              <a href={trailHref(one.trail)}>{near(one.at, voice)}</a>
              {one.words === '' ? null : <small class="aside">{voice.words(one.words)}</small>}
              {one.isUsed ? null : <small class="aside">The forecast does not rest on it.</small>}
            </th>
            <td class="number">{voice.massSure(one.slabGrams, one.standardUncertaintyGrams)}</td>
            <td class="number">
              {one.waterContentWetBasis === null ? '–' : voice.share(one.waterContentWetBasis)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function WithBat({ slab, voice }: HistoryProps) {
  return (
    <table>
      <caption>Slab and bat together: tells what the air took, not how wet the slab is</caption>
      <thead>
        <tr>
          <th scope="col">When</th>
          <th scope="col" class="number">
            Both
          </th>
          <th scope="col" class="number">
            Into the air
          </th>
        </tr>
      </thead>
      <tbody>
        {slab.pairs.toReversed().map((one) => (
          <tr>
            <th scope="row">
              <a href={trailHref(one.trail)}>{near(one.at, voice)}</a>
            </th>
            <td class="number">{voice.mass(one.pairGrams)}</td>
            <td class="number">
              {one.evaporatedGrams === null ? '–' : voice.mass(one.evaporatedGrams)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
