import type { PlasterBoard } from '../../../db/reports/plaster.ts'
import type { Voice } from '../voice.ts'
import { nearSpan } from './near.ts'

export type Slab = PlasterBoard['loads'][number]

/** How wet a slab is, when it is ready and when too dry, each with where it may lie. */
export function SlabFigures({ slab, voice }: { slab: Slab; voice: Voice }) {
  const { water, readyAt, tooDryAfter } = slab
  if (water === null) return <p>{voice.words(slab.why ?? slab.words)}</p>
  return (
    <dl class="figures">
      <div>
        <dt>{slab.endedAt === null ? 'Water now' : 'Water when it was lifted'}</dt>
        <dd>
          {voice.share(water.median)}
          <small>
            {voice.share(water.from)} to {voice.share(water.to)}
          </small>
        </dd>
      </div>
      {readyAt === null ? null : (
        <Moment
          name={isPast(readyAt, slab) ? 'Ready since' : 'Ready'}
          span={readyAt}
          voice={voice}
        />
      )}
      {tooDryAfter === null ? (
        <div>
          <dt>Too dry</dt>
          <dd>
            never<small>it comes to rest before</small>
          </dd>
        </div>
      ) : (
        <Moment
          name={isPast(tooDryAfter, slab) ? 'Too dry since' : 'Too dry after'}
          span={tooDryAfter}
          voice={voice}
        />
      )}
    </dl>
  )
}

type Span = NonNullable<Slab['readyAt']>

function isPast({ median }: Span, { at }: Slab): boolean {
  return median !== null && new Date(median) <= new Date(at)
}

function Moment({ name, span, voice }: { name: string; span: Span; voice: Voice }) {
  const { middle, range } = nearSpan(span, voice)
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {middle}
        <small>{range}</small>
      </dd>
    </div>
  )
}
