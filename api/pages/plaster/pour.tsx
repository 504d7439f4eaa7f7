import { plasterBoard } from '../../../db/reports/plaster.ts'
import { driestFirst } from '../../../shared/plaster-urgency.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allScales, type Scale } from '../things.ts'
import { saidOnly } from '../typed.ts'
import { basinChoices, fullBasins, type Basin } from './basins.ts'
import { emptyWords, type EmptyBat } from './empty-bats.tsx'
import { ScaleChoice } from './scale-choice.tsx'
import { massFieldOf, TapWithMass, tapped } from './tap-with-mass.tsx'
import { WorkTold, workSaid } from './work-told.tsx'

interface Poured {
  readonly basins: readonly Basin[]
  /** The driest first. */
  readonly bats: readonly EmptyBat[]
  readonly scales: readonly Scale[]
}

const thicknessFieldOf = (batId: string) => `thick-${batId}`

/** Slurry on plaster: out of a basin onto one bat or several. */
export const pourPage: ActPage<Poured> = {
  path: '/plaster/pour',
  act: actCalled('pour'),
  here: 'plaster',
  press: 'Pour',
  async load(c) {
    const { db, now } = c.get('services')
    const board = await plasterBoard(db, { studioId: c.get('studioId'), now: now() })
    return {
      basins: await fullBasins(c),
      bats: driestFirst(board.emptyBats),
      scales: await allScales(c),
    }
  },
  title: () => 'Pour on plaster',
  keeps: () => 'Poured on plaster',
  // What was tapped tells it all: after the pour the bats are empty no more, and a retry says the same.
  said: (typed) =>
    saidOnly({
      ...workSaid(typed),
      basinVesselId: typed.text('basinVesselId'),
      loads: tapped(typed, 'bats').map((batId) =>
        saidOnly({
          batId,
          reading: typed.gross(massFieldOf('bats', batId)),
          thicknessMillimetres: typed.decimal(thicknessFieldOf(batId)),
        }),
      ),
    }),
  fieldOf: (typed) => ({
    '/minutes': 'minutes',
    '/basinVesselId': 'basinVesselId',
    '/loads': 'bats',
    ...Object.fromEntries(
      tapped(typed, 'bats').flatMap((batId, index) => {
        const field = massFieldOf('bats', batId)
        const load = `/loads/${String(index)}`
        return [
          [`${load}/batId`, `bats-tap-${batId}`],
          [`${load}/reading`, field],
          [`${load}/reading/tare`, `${field}Tare`],
          [`${load}/reading/scaleId`, 'scaleId'],
          [`${load}/thicknessMillimetres`, thicknessFieldOf(batId)],
        ]
      }),
    ),
  }),
  next: () => '/plaster',
  Form: ({ data, typed, voice, faults }) => {
    const field = { typed, faults }
    const driest = data.bats[0]?.batId
    return (
      <>
        <ChoiceField
          {...field}
          name="basinVesselId"
          label="From"
          usual={data.basins[0]?.vesselId}
          choices={basinChoices(data.basins, voice)}
        />
        <TapWithMass
          {...field}
          voice={voice}
          name="bats"
          legend="Onto"
          hint="Tap each bat that you pour on. The one that should be driest comes first."
          usual={driest === undefined ? [] : [driest]}
          massLabel={({ name }) => `Slurry on ${name}`}
          things={data.bats.map((bat) => ({
            id: bat.batId,
            name: bat.batName,
            hint: emptyWords(bat, voice),
            more: (
              <details
                class="more"
                open={
                  typed.text(thicknessFieldOf(bat.batId)) !== undefined ||
                  typed.hasMass(`${massFieldOf('bats', bat.batId)}Tare`)
                }
              >
                <summary>Weighed with its bat, or how thick</summary>
                <MassField
                  {...field}
                  voice={voice}
                  name={`${massFieldOf('bats', bat.batId)}Tare`}
                  label={`${bat.batName} alone, just before`}
                  hint="Where the scale showed bat and slurry together. Nothing where it was set to zero with the bat."
                />
                <TextField
                  {...field}
                  name={thicknessFieldOf(bat.batId)}
                  label="How thick it lies"
                  hint="Worked out where it is left empty and the bat’s length and width are known."
                  inputmode="decimal"
                  after="mm"
                />
              </details>
            ),
          }))}
        />
      </>
    )
  },
  After: (props) => {
    const { data, typed, faults } = props
    const field = { typed, faults }
    return (
      <>
        <WorkTold {...field} />
        <ScaleChoice {...field} scales={data.scales} />
      </>
    )
  },
}
