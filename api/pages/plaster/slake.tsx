import { weighList, type WeighableThing } from '../../../db/reports/weigh-list.ts'
import { decimal } from '../../../shared/decimal.ts'
import { waterContentWetBasisOf } from '../../../shared/quantity.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allBodies, allScales, type Body, type Scale } from '../things.ts'
import { saidOnly } from '../typed.ts'
import type { Voice } from '../voice.ts'
import { allBasins, basinChoices, type Basin } from './basins.ts'
import { BlendChoice } from './blend-choice.tsx'
import { dustCautions } from './dust.ts'
import { ScaleChoice } from './scale-choice.tsx'
import { WorkTold, workSaid } from './work-told.tsx'

interface Slaked {
  /** Vessels with scrap in them, what was weighed last first. */
  readonly scrap: readonly WeighableThing[]
  readonly basins: readonly Basin[]
  readonly bodies: readonly Body[]
  readonly scales: readonly Scale[]
  readonly jurisdiction: Voice['studio']['jurisdiction']
}

/** Scrap into water. */
export const slakePage: ActPage<Slaked> = {
  path: '/plaster/slake',
  act: actCalled('slake'),
  here: 'plaster',
  press: 'Slake',
  async load(c) {
    const things = await weighList(c.get('services').db, c.get('studioId'))
    return {
      scrap: things.filter(({ kind, dryGrams }) => kind === 'vessel' && dryGrams !== '0'),
      basins: await allBasins(c),
      bodies: await allBodies(c),
      scales: await allScales(c),
      jurisdiction: c.get('voice').studio.jurisdiction,
    }
  },
  title: () => 'Slake scrap',
  keeps: () => 'Scrap slaked',
  said: (typed) =>
    saidOnly({
      ...workSaid(typed),
      fromVesselId: typed.text('fromVesselId'),
      basinVesselId: typed.text('basinVesselId'),
      scrap: typed.gross('scrap'),
      water: typed.gross('water'),
      blendBodyId: typed.text('blendBodyId'),
    }),
  fieldOf: {
    '/minutes': 'minutes',
    '/fromVesselId': 'fromVesselId',
    '/basinVesselId': 'basinVesselId',
    '/scrap': 'scrap',
    '/water': 'water',
    '/scrap/scaleId': 'scaleId',
    '/water/scaleId': 'scaleId',
    '/blendBodyId': 'blendBodyId',
  },
  cautions: ({ scrap, bodies, jurisdiction }) => dustCautions(scrap, { bodies, jurisdiction }),
  keysFor: 'water',
  next: () => '/plaster',
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    const { scrap, basins } = data
    return (
      <>
        <ChoiceField
          {...field}
          name="fromVesselId"
          label="Out of"
          hint="All of it goes in. Weigh it first where the books may be off."
          usual={scrap[0]?.id}
          choices={scrap.map((vessel) => ({
            value: vessel.id,
            name: vessel.name,
            hint: `${vessel.holds ?? ''}, ${scrapWords(vessel, voice)}`,
          }))}
        />
        <ChoiceField
          {...field}
          name="basinVesselId"
          label="Into"
          usual={usualBasin(basins, scrap[0])?.vesselId}
          choices={basinChoices(basins, voice)}
        />
        <MassField
          {...field}
          voice={voice}
          name="water"
          label="Water put to it"
          hint={voice.words(
            'Enough to cover it by some centimetres. Nothing where none was added.',
          )}
          hasKeys
        />
      </>
    )
  },
  After: (props) => {
    const { data, typed, voice, faults } = props
    const field = { typed, faults }
    return (
      <>
        <details class="more" open={typed.hasMass('scrap')}>
          <summary>Not all of the scrap</summary>
          <MassField
            {...field}
            voice={voice}
            name="scrap"
            label="Scrap that goes in"
            hint="Weighed as it is, without its vessel."
          />
        </details>
        <BlendChoice {...field} bodies={data.bodies} />
        <WorkTold {...field} />
        <ScaleChoice {...field} scales={data.scales} />
      </>
    )
  },
}

function scrapWords(vessel: WeighableThing, voice: Voice): string {
  const water = waterContentWetBasisOf({
    dryGrams: decimal(vessel.dryGrams),
    waterGrams: decimal(vessel.waterGrams),
  })
  const share = water === undefined ? '' : `, ${voice.share(water, 0)} water`
  return `${voice.mass(vessel.wetGrams)}${share}`
}

/** Where the same clay lies in water already; otherwise an empty one. */
function usualBasin(basins: readonly Basin[], scrap: WeighableThing | undefined) {
  const isSame = ({ bodyId }: Basin) => bodyId !== null && bodyId === scrap?.bodyId
  return basins.find(isSame) ?? basins.find(({ holding }) => holding === null) ?? basins[0]
}
