import type { Context } from 'hono'
import { vesselBefore } from '../../../db/reports/said-before.ts'
import { weighList, type WeighableThing } from '../../../db/reports/weigh-list.ts'
import type { EntryKind } from '../../../shared/entry-kind.ts'
import type { Environment } from '../../services.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField } from '../fields.tsx'
import { allBodies, type Body } from '../things.ts'
import type { Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'

/** Buckets that scrap goes into, those of the same clay first, and the blends that two clays may become. */
export interface ScrapVessels {
  readonly vessels: readonly WeighableThing[]
  readonly blends: readonly Body[]
  /** The one that it went into the last time. */
  readonly lastVesselId: string | undefined
}

export async function scrapVessels(
  c: Context<Environment>,
  { kind, bodyId }: { kind: EntryKind; bodyId?: string | undefined },
): Promise<ScrapVessels> {
  const things = await weighList(c.get('services').db, c.get('studioId'))
  const vessels = things.filter(({ kind }) => kind === 'vessel')
  const blends = (await allBodies(c)).filter(({ isBlend }) => isBlend)
  const studioId = c.get('studioId')
  return {
    vessels: vessels.toSorted((one, other) => rank(one, bodyId) - rank(other, bodyId)),
    blends,
    lastVesselId: await vesselBefore(c.get('services').db, { studioId, kind, bodyId }),
  }
}

/** Its own clay, then nothing, then another's. */
function rank(vessel: WeighableThing, bodyId: string | undefined): number {
  const isEmpty = vessel.dryGrams === '0'
  if (vessel.bodyId === bodyId && !isEmpty) return 0
  return isEmpty ? 1 : 2
}

interface ScrapVesselProps extends ScrapVessels {
  readonly name?: string
  readonly label: string
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly voice: Voice
}

/** The bucket that it goes into; where two clays would meet in it, what they become. */
export function ScrapVesselField(props: ScrapVesselProps) {
  const { vessels, blends, label, typed, faults, voice, name = 'vesselId' } = props
  const meets =
    faults?.code === 'bodies_must_not_mix_unless_declared' ||
    typed.text('blendBodyId') !== undefined
  if (vessels.length === 0) {
    return (
      <p>
        No bucket is on the books yet. <a href="/books/things/vessels">Enter one</a>.
      </p>
    )
  }
  return (
    <>
      <ChoiceField
        typed={typed}
        faults={faults}
        name={name}
        label={label}
        usual={props.lastVesselId ?? vessels[0]?.id}
        choices={vessels.map((vessel) => ({
          value: vessel.id,
          name: vessel.name,
          hint: holdsWords(vessel, voice),
        }))}
      />
      {meets && blends.length > 0 ? (
        <ChoiceField
          typed={typed}
          faults={faults}
          name="blendBodyId"
          label="Two clays meet here. What do they become?"
          choices={blends.map((blend) => ({ value: blend.bodyId, name: blend.name }))}
        />
      ) : null}
    </>
  )
}

function holdsWords({ holds, dryGrams }: WeighableThing, voice: Voice): string {
  return holds === null || dryGrams === '0' ? 'empty' : `${holds}, ${voice.mass(dryGrams)} dry`
}
