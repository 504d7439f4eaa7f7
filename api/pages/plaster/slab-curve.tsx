import { decimal } from '../../../shared/decimal.ts'
import { giveOrTake } from '../../../shared/how-sure.ts'
import { DryingCurve, type CurveAsked } from '../drawings/drying-curve.tsx'
import type { Voice } from '../voice.ts'
import { near } from './near.ts'
import type { Slab } from './slab-figures.tsx'

/** The curve of a slab with its weigh-ins; nothing where none can be known, which stands in words. */
export function SlabCurve({ slab, voice }: { slab: Slab; voice: Voice }) {
  if (slab.curve.length === 0) return null
  return (
    <DryingCurve
      id={`curve-${slab.lotId}`}
      title={`How the slab on ${slab.batName} dries`}
      waterWords={(share) => voice.share(share, 0)}
      why={slab.why}
      beganWords={near(slab.laidAt, voice)}
      now={slab.endedAt === null ? new Date(slab.at) : null}
      curve={slab.curve.map(({ at, waterContentWetBasis: water }) => ({
        at: new Date(at),
        median: Number(water.median),
        from: Number(water.from),
        to: Number(water.to),
      }))}
      weighIns={slab.weighIns.flatMap(weighInDrawn)}
      targets={[
        targetDrawn('ready', 'ready', { slab, voice }),
        targetDrawn('too-dry', 'too dry', { slab, voice }),
      ]}
    />
  )
}

function weighInDrawn({
  at,
  waterContentWetBasis: water,
  waterContentStandardUncertainty: unsure,
}: Slab['weighIns'][number]): CurveAsked['weighIns'] {
  if (water === null) return []
  const half = giveOrTake(decimal(unsure ?? '0')).toNumber()
  return [{ at: new Date(at), water: Number(water), giveOrTake: half }]
}

type Target = CurveAsked['targets'][number]

function targetDrawn(
  name: Target['name'],
  words: string,
  { slab, voice }: { slab: Slab; voice: Voice },
): Target {
  const isReady = name === 'ready'
  const share = isReady ? slab.readyWaterContentWetBasis : slab.tooDryWaterContentWetBasis
  const median = (isReady ? slab.readyAt : slab.tooDryAfter)?.median ?? null
  return {
    name,
    words,
    share: Number(share),
    says: median === null ? null : near(median, voice),
    at: median === null ? null : new Date(median),
  }
}
