import type { PlasterBoard } from '../../../db/reports/plaster.ts'
import { driestFirst, mostUrgentFirst, slabStanding } from '../../../shared/plaster-urgency.ts'
import type { Voice } from '../voice.ts'
import { EmptyBats } from './empty-bats.tsx'
import { SlabActs } from './slab-acts.tsx'
import { SlabCurve } from './slab-curve.tsx'
import { SlabFigures, type Slab } from './slab-figures.tsx'
import { Standing } from './standing.tsx'
import { Trap } from './trap.tsx'
import { Works } from './works.tsx'

interface BoardProps {
  readonly board: PlasterBoard
  readonly voice: Voice
}

/** Every slab on its bat, the most urgent first, and the bats that are free. */
export function Board({ board, voice }: BoardProps) {
  const slabs = mostUrgentFirst(board.loads)
  const hasBats = slabs.length + board.emptyBats.length > 0
  return (
    <>
      <h1>Plaster</h1>
      <Works />
      {hasBats ? null : (
        <p>
          There is no plaster bat yet.{' '}
          <a href="/books/things/bats/new?then=/plaster">Enter a bat</a>: its name, and what it
          weighs dry.
        </p>
      )}
      <section>
        <h2>On the bats</h2>
        {slabs.length === 0 ? <p>Nothing lies on plaster.</p> : null}
        {slabs.map((slab) => (
          <SlabOnBoard slab={slab} voice={voice} />
        ))}
        {slabs.length === 0 ? null : (
          <p class="quiet">
            What stands below a figure is where it lies nine times in ten. {pastWords(board)}
          </p>
        )}
      </section>
      <EmptyBats bats={driestFirst(board.emptyBats)} voice={voice} />
    </>
  )
}

function pastWords({ pastLoads }: PlasterBoard): string {
  if (pastLoads === 0) return 'No slab of this studio was weighed to its end yet.'
  return `Learnt from ${String(pastLoads)} ${pastLoads === 1 ? 'slab' : 'slabs'} of this studio.`
}

function SlabOnBoard({ slab, voice }: { slab: Slab; voice: Voice }) {
  const standing = slabStanding(slab)
  return (
    <article class="slab">
      <h3>
        <a href={`/plaster/${slab.lotId}`}>{slab.batName}</a> <small>{slab.bodyName}</small>
      </h3>
      <Standing standing={standing} />
      {slab.advice === null ? null : <p>{voice.words(slab.advice.words)}</p>}
      <SlabFigures slab={slab} voice={voice} />
      <Trap slab={slab} voice={voice} />
      <SlabActs slab={slab} standing={standing} hasOpen />
      <SlabCurve slab={slab} voice={voice} />
    </article>
  )
}
