import type { WeighableThing } from '../../../db/reports/weigh-list.ts'
import type { Voice } from '../voice.ts'
import { weighAddress } from './address.ts'

const SHELVES: readonly { kind: WeighableThing['kind']; heading: string }[] = [
  { kind: 'vessel', heading: 'Buckets' },
  { kind: 'load', heading: 'On plaster' },
  { kind: 'lot', heading: 'Clay on the bench' },
  { kind: 'run', heading: 'Pots on their boards' },
]

const LAST_USED = 4

interface WeighListProps {
  readonly things: readonly WeighableThing[]
  readonly voice: Voice
}

/** What can stand on the scale, what was weighed last first, each one touch. */
export function WeighList({ things, voice }: WeighListProps) {
  const last = things.filter(({ lastWeighedAt }) => lastWeighedAt !== null).slice(0, LAST_USED)
  const rest = (kind: string) => things.filter((one) => one.kind === kind && !last.includes(one))
  return (
    <>
      <h1>What is on the scale?</h1>
      {things.length === 0 ? (
        <p>
          Nothing to weigh yet. <a href="/books/things/vessels">Enter a bucket</a> or{' '}
          <a href="/books/delivery">clay that came in</a>.
        </p>
      ) : null}
      <Shelf heading="Weighed last" things={last} voice={voice} />
      {SHELVES.map(({ kind, heading }) => (
        <Shelf heading={heading} things={rest(kind)} voice={voice} />
      ))}
      <p>
        A basin of slurry is read by its density: <a href="/plaster/slurry">read a slurry</a>. Bags
        and pots are <a href="/books/count">counted</a>.
      </p>
    </>
  )
}

function Shelf({ heading, things, voice }: WeighListProps & { heading: string }) {
  if (things.length === 0) return null
  return (
    <section>
      <h2>{heading}</h2>
      <ul class="targets">
        {things.map((thing) => (
          <li>
            <a class="target" href={weighAddress(thing)} data-offline>
              <strong>{thing.name}</strong>
              <span>{wordsOf(thing, voice)}</span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
}

function wordsOf(thing: WeighableThing, voice: Voice): string {
  const holds = [
    thing.holds ?? 'empty',
    thing.pieces === '0' ? '' : `${thing.pieces} pieces`,
    thing.dryGrams === '0' ? '' : `${voice.mass(thing.dryGrams)} dry`,
    thing.lastWeighedAt === null ? '' : `weighed ${voice.moment(thing.lastWeighedAt)}`,
  ]
  return holds.filter((words) => words !== '').join(' · ')
}
