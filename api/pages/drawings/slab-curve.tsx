import type { PlasterBoard } from '../../../db/reports/plaster.ts'
import { decimal } from '../../../shared/decimal.ts'
import { giveOrTake } from '../../../shared/how-sure.ts'
import type { Voice } from '../voice.ts'
import type { CurveDrawn } from './drying-places.ts'
import { DryingCurve } from './drying-curve.tsx'

type Slab = PlasterBoard['loads'][number]

/** How one slab dries: what was weighed, the curve, and when it is ready and too dry. */
export function SlabCurve({ slab, voice }: { readonly slab: Slab; readonly voice: Voice }) {
  return (
    <DryingCurve
      id="slab"
      title={`${slab.label}: water in the slab`}
      why={slab.why}
      waterWords={(share) => voice.share(share, 0)}
      beganWords={voice.moment(slab.curve[0]?.at ?? slab.laidAt)}
      curve={slab.curve.map(({ at, waterContentWetBasis: { median, from, to } }) => ({
        at: new Date(at),
        median: Number(median),
        from: Number(from),
        to: Number(to),
      }))}
      weighIns={weighInsOf(slab)}
      targets={targetsOf(slab, voice)}
      now={slab.endedAt === null ? new Date(slab.at) : null}
    />
  )
}

/** Those that the curve rests on. */
function weighInsOf({ weighIns }: Slab): CurveDrawn['weighIns'] {
  return weighIns.flatMap((weighIn) => {
    const { at, isUsed, waterContentWetBasis, waterContentStandardUncertainty } = weighIn
    if (!isUsed || waterContentWetBasis === null) return []
    const half = giveOrTake(decimal(waterContentStandardUncertainty ?? '0'))
    return [{ at: new Date(at), water: Number(waterContentWetBasis), giveOrTake: half.toNumber() }]
  })
}

function targetsOf(slab: Slab, voice: Voice): CurveDrawn['targets'] {
  const moment = (at: string | null | undefined) => ({
    at: at === null || at === undefined ? null : new Date(at),
    says: at === null || at === undefined ? null : voice.moment(at),
  })
  const { readyAt, tooDryAfter } = slab
  return [
    {
      ...{ name: 'ready', words: 'ready', share: Number(slab.readyWaterContentWetBasis) },
      ...moment(readyAt?.median),
    },
    {
      ...{ name: 'too-dry', words: 'too dry', share: Number(slab.tooDryWaterContentWetBasis) },
      ...moment(tooDryAfter?.median),
    },
  ]
}
