import { waitingForGlaze, type WaitingForGlaze } from '../../../db/reports/glaze-waiting.ts'
import type { Volume } from '../../../shared/units.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField, TextField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { refuseMissing } from '../missing.ts'
import { ScaleChoice } from '../plaster/scale-choice.tsx'
import { allScales, type Scale } from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import { DensityFields, densityFields, densitySaid } from './density-fields.tsx'
import { runsChosen } from '../all-or-some.tsx'
import { DipRuns } from './dip-runs.tsx'
import { bucketHere, glazeJug, type GlazeBucket } from './here.ts'

interface Dipping {
  readonly bucket: GlazeBucket
  readonly runs: readonly WaitingForGlaze[]
  readonly jug: Volume | undefined
  readonly scales: readonly Scale[]
}

/** Pots go into the glaze: which, out of which bucket, and how it is known how much is on them. */
export const dipPage: ActPage<Dipping> = {
  path: '/glaze/dip/:vesselId',
  act: actCalled('glaze'),
  here: 'glaze',
  press: 'Glazed',
  async load(c) {
    const bucket = await bucketHere(c)
    const runs = await waitingForGlaze(c.get('services').db, c.get('studioId'))
    return { bucket, runs, jug: await glazeJug(c), scales: await allScales(c) }
  },
  title: ({ bucket }) => `Glaze: ${bucket.materialName}`,
  said: (typed, { bucket, runs }) => {
    const dipped = runsChosen(typed, runs)
    if (dipped.length === 0) refuseMissing('runs', 'Which pots?')
    const how = typed.text('how') ?? 'usual'
    const isBoth = how === 'both'
    return saidOnly({
      glazeId: bucket.materialId,
      vesselId: bucket.vesselId,
      runs: dipped,
      bucket: how === 'bucket' || isBoth ? bucketSaid(typed, bucket.vesselId) : undefined,
      pots: how === 'pots' || isBoth ? potsSaid(typed) : undefined,
      usual: how === 'usual' ? true : undefined,
    })
  },
  fieldOf: (typed, { runs }) => ({
    ...FIELDS,
    ...Object.fromEntries(
      runsChosen(typed, runs).map(({ runId }, index) => [
        `/runs/${String(index)}`,
        `some-${runId}`,
      ]),
    ),
  }),
  next: () => '/glaze',
  Form: DipForm,
  After: ({ data, typed, faults }) => (
    <ScaleChoice typed={typed} faults={faults} scales={data.scales} />
  ),
}

const FIELDS = {
  '': 'how',
  '/runs': 'runs',
  '/usual': 'how',
  '/bucket/after/reading': 'bucketAfter',
  ...densityFields('/bucket/after/density', 'after'),
  '/bucket/before/reading': 'bucketBefore',
  ...densityFields('/bucket/before/density', 'before'),
  '/bucket/washedOffDryGrams': 'washedOff',
  '/pots/after': 'potsAfter',
  '/pots/before': 'potsBefore',
}

function bucketSaid(typed: Typed, vesselId: string) {
  const before = typed.gross('bucketBefore', vesselId)
  const densityBefore = densitySaid(typed, 'before')
  return saidOnly({
    before:
      before === undefined && densityBefore === undefined
        ? undefined
        : saidOnly({ reading: before, density: densityBefore }),
    after: saidOnly({
      reading: typed.gross('bucketAfter', vesselId),
      density: densitySaid(typed, 'after'),
    }),
    washedOffDryGrams: typed.text('how') === 'both' ? undefined : typed.decimal('washedOff'),
  })
}

function potsSaid(typed: Typed) {
  return saidOnly({ before: typed.net('potsBefore'), after: typed.net('potsAfter') })
}

function DipForm(props: ActFormProps<Dipping>) {
  const { data, typed, voice, faults } = props
  const { bucket, runs } = data
  const field = { typed, faults }
  const isUsualKnown = runs.some(({ formId }) => bucket.covers.some((one) => one.formId === formId))
  return (
    <div class="ways">
      <DipRuns runs={runs} {...field} />
      <ChoiceField
        {...field}
        name="how"
        label="How much is on them"
        usual={isUsualKnown ? 'usual' : 'bucket'}
        choices={[
          {
            value: 'usual',
            name: 'As usual',
            hint: isUsualKnown ? usualWords(data, voice.mass) : 'not known yet for these forms',
          },
          { value: 'bucket', name: 'By the bucket', hint: 'weighed before and after' },
          { value: 'pots', name: 'By the pots', hint: 'weighed before and after, dry' },
          { value: 'both', name: 'By both', hint: 'tells what went into sieve and wash' },
        ]}
      />
      <div class="way way-bucket">
        <ByBucket {...props} />
      </div>
      <div class="way way-pots">
        <MassField
          {...field}
          voice={voice}
          name="potsAfter"
          label="All of them, glazed and dry"
          hint="Without their boards. Let the glaze dry first."
        />
        <MassField
          {...field}
          voice={voice}
          name="potsBefore"
          label="The same pots before"
          hint="Empty: as the books have them."
        />
      </div>
    </div>
  )
}

function usualWords({ bucket, runs }: Dipping, mass: (grams: string) => string): string {
  const forms = bucket.covers.filter(({ formId }) => runs.some((run) => run.formId === formId))
  return forms
    .map(({ formName, dryGramsPerPiece }) => `${formName} ${mass(dryGramsPerPiece)} dry each`)
    .join(', ')
}

function ByBucket({ data, ...said }: ActFormProps<Dipping>) {
  const { bucket, jug } = data
  const { typed, voice, faults } = said
  const field = { typed, faults }
  const names = ['washedOff', 'beforeJug']
  const isOpen =
    typed.hasMass('bucketBefore') || names.some((name) => typed.text(name) !== undefined)
  return (
    <>
      <MassField
        {...field}
        voice={voice}
        name="bucketAfter"
        label="The bucket after"
        hint={`Bucket and all. By the books it weighed ${voice.mass(bucket.grossGrams)} before.`}
      />
      <DensityFields {...said} name="after" jug={jug} />
      <details class="more" open={isOpen}>
        <summary>The bucket before, and what went into the wash</summary>
        <p class="hint">Empty: before, it was as the books have it.</p>
        <MassField {...field} voice={voice} name="bucketBefore" label="The bucket before" />
        <DensityFields {...said} name="before" jug={jug} />
        <TextField
          {...field}
          name="washedOff"
          label="Left in sieve, rag and wash, dry"
          inputmode="decimal"
          after="g"
        />
      </details>
    </>
  )
}
