import type { Volume } from '../../../shared/units.ts'
import { actCalled } from '../act-called.ts'
import type { ActPage } from '../act-page.tsx'
import { TextField } from '../fields.tsx'
import { allScales, allVessels, type Scale } from '../things.ts'
import { saidOnly } from '../typed.ts'
import { OtherTare, ScaleFigures } from '../weigh/scale-figures.tsx'
import { DensityFields, densityFields, densitySaid } from './density-fields.tsx'
import { bucketHere, glazeJug, type GlazeBucket } from './here.ts'

interface Reading {
  readonly bucket: GlazeBucket
  readonly jug: Volume | undefined
  readonly tareGrams: string | undefined
  readonly scales: readonly Scale[]
}

/** A bucket of glaze on the scale, and a jug of it: how much powder it holds. */
export const readPage: ActPage<Reading> = {
  path: '/glaze/read/:vesselId',
  act: actCalled('read-glaze'),
  here: 'glaze',
  press: 'Read it',
  keysFor: 'gross',
  async load(c) {
    const bucket = await bucketHere(c)
    const vessels = await allVessels(c)
    const tareGrams = vessels.find(({ vesselId }) => vesselId === bucket.vesselId)?.tareGrams
    return { bucket, tareGrams, jug: await glazeJug(c), scales: await allScales(c) }
  },
  title: ({ bucket }) => `Read: ${bucket.materialName}`,
  said: (typed, { bucket }) => {
    const density = densitySaid(typed, 'density')
    return saidOnly({
      vesselId: bucket.vesselId,
      reading: typed.gross('gross', bucket.vesselId),
      density:
        density === undefined
          ? undefined
          : saidOnly({ ...density, celsius: typed.decimal('celsius') }),
    })
  },
  fieldOf: {
    '/reading': 'gross',
    '/reading/tare': 'grossTare',
    '/reading/scaleId': 'scaleId',
    ...densityFields('/density', 'density'),
    '/density/celsius': 'celsius',
  },
  next: (_, { bucket }) => `/glaze/bucket/${bucket.vesselId}`,
  Form: (props) => {
    const { data, ...said } = props
    return (
      <>
        <ScaleFigures
          {...said}
          label="The scale shows, bucket and all"
          tareGrams={data.tareGrams}
          isOptional
        />
        <p class="hint">
          By the books {said.voice.mass(data.bucket.grossGrams)}. Left empty, only the density is
          read, and the books stay. A full bucket is heavy: two people, or a trolley.
        </p>
        <DensityFields {...said} name="density" jug={data.jug} isNeeded />
      </>
    )
  },
  After: ({ data, ...said }) => (
    <>
      <OtherTare {...said} tareGrams={data.tareGrams} scales={data.scales} />
      <details class="more">
        <summary>How warm the glaze is</summary>
        <TextField
          name="celsius"
          label="How warm the glaze is"
          hint="As warm as a room, 20 °C, where it is left empty."
          inputmode="decimal"
          after="°C"
          typed={said.typed}
          faults={said.faults}
        />
      </details>
    </>
  ),
}
