import type { Context } from 'hono'
import { fractionOfPoints } from '../../../shared/percent.ts'
import type { Environment } from '../../services.ts'
import { actCalled } from '../act-called.ts'
import type { ActFormProps, ActPage } from '../act-page.tsx'
import { ChoiceField, CountField, TextField } from '../fields.tsx'
import { enterFirst, type Missing } from '../first-needed.tsx'
import { MassField } from '../mass-field.tsx'
import { SelectField } from '../select-field.tsx'
import { allMaterials, allVessels, type Material, type Vessel } from '../things.ts'
import { saidOnly } from '../typed.ts'

interface HereAlready {
  readonly materials: readonly Material[]
  readonly vessels: readonly Vessel[]
}

const fieldOf = {
  '/materials': 'materialId',
  '/materials/0': 'mass',
  '/materials/0/materialId': 'materialId',
  '/materials/0/vesselId': 'vesselId',
  '/materials/0/reading': 'gross',
  '/materials/0/mass': 'mass',
  '/materials/0/pieces': 'pieces',
  '/materials/0/water': 'water',
  '/materials/0/waterMass': 'waterMass',
  '/materials/0/cost': 'cost',
}

/** Powders, boxes, shelves and gas that were on the shelf before the books. */
export const openMaterial: ActPage<HereAlready> = {
  path: '/books/opening/material',
  act: actCalled('open-books'),
  here: 'books',
  press: 'It is here',
  load: async (c) => ({
    materials: (await allMaterials(c)).filter(({ kind }) => kind !== 'glaze'),
    vessels: [],
  }),
  title: () => 'A powder, box or shelf that is here',
  said: (typed) => ({
    items: [],
    materials: [
      saidOnly({
        materialId: typed.text('materialId'),
        mass: typed.mass('mass'),
        pieces: typed.count('pieces'),
        cost: typed.decimal('cost'),
      }),
    ],
  }),
  fieldOf,
  next: () => '/books/opening',
  Form: (props) => {
    const { data, typed, voice, faults } = props
    const field = { typed, faults }
    return (
      <>
        <SelectField
          {...field}
          name="materialId"
          label="What it is"
          open="Choose"
          isNeeded
          choices={data.materials.map(({ materialId, name }) => ({ value: materialId, name }))}
        />
        <MassField
          {...field}
          voice={voice}
          name="mass"
          label="So heavy, as it lies there"
          hint="Of powders and gas. A good guess will do until it is weighed."
        />
        <CountField {...field} name="pieces" label="Or so many, of what is counted" />
        <WhatItCost {...props} />
      </>
    )
  },
}

/** A bucket of glaze that was there before the books. */
export const openGlaze: ActPage<HereAlready> = {
  path: '/books/opening/glaze',
  act: actCalled('open-books'),
  here: 'books',
  press: 'It is here',
  load: async (c) => ({
    materials: (await allMaterials(c)).filter(({ kind }) => kind === 'glaze'),
    vessels: (await allVessels(c)).filter(({ kind }) => ['bucket', 'tin', 'other'].includes(kind)),
  }),
  title: () => 'A glaze that is here',
  said: (typed) => {
    const vesselId = typed.text('vesselId')
    const points = typed.decimal('water')
    return {
      items: [],
      materials: [
        saidOnly({
          materialId: typed.text('materialId'),
          vesselId,
          reading: typed.gross('gross', vesselId),
          water:
            points === undefined
              ? undefined
              : { content: fractionOfPoints(points), basis: 'wet', standing: 'stated' },
          mass: typed.mass('mass'),
          waterMass: typed.mass('waterMass'),
          cost: typed.decimal('cost'),
        }),
      ],
    }
  },
  fieldOf,
  next: () => '/books/opening',
  Form: (props) => {
    const { data, typed, voice, faults } = props
    const field = { typed, faults }
    const [glaze, otherGlaze] = data.materials
    return (
      <>
        <ChoiceField
          {...field}
          name="materialId"
          label="Which glaze"
          usual={otherGlaze === undefined ? glaze?.materialId : undefined}
          isNeeded
          choices={data.materials.map(({ materialId, name }) => ({ value: materialId, name }))}
        />
        <ChoiceField
          {...field}
          name="vesselId"
          label="It is in"
          isNeeded
          choices={data.vessels.map(({ vesselId, name, tareGrams }) => ({
            value: vesselId,
            name,
            hint: `${voice.mass(tareGrams)} empty`,
          }))}
        />
        <MassField {...field} voice={voice} name="gross" label="The bucket and all weighs" />
        <TextField
          {...field}
          name="water"
          label="Of the glaze, water is"
          hint="A dipping glaze is about half water. Reading it later tells."
          inputmode="decimal"
          after="%"
        />
        <details class="more" open={typed.hasMass('mass')}>
          <summary>Or: so much dry powder and so much water</summary>
          <MassField {...field} voice={voice} name="mass" label="Dry powder in it" />
          <MassField {...field} voice={voice} name="waterMass" label="Water in it" />
        </details>
        <WhatItCost {...props} />
      </>
    )
  },
}

function WhatItCost({ typed, voice, faults }: ActFormProps<HereAlready>) {
  return (
    <TextField
      name="cost"
      label="What it cost"
      hint="Empty: nothing."
      inputmode="decimal"
      after={voice.studio.currency}
      typed={typed}
      faults={faults}
    />
  )
}

/** What must be entered before. */
export async function noMaterial(c: Context<Environment>): Promise<Missing | undefined> {
  const isThere = (await allMaterials(c)).some(({ kind }) => kind !== 'glaze')
  return isThere ? undefined : missing('Enter a material', c.req.path)
}

export async function noGlaze(c: Context<Environment>): Promise<Missing | undefined> {
  const isThere = (await allMaterials(c)).some(({ kind }) => kind === 'glaze')
  return isThere ? undefined : missing('Enter a glaze', c.req.path)
}

function missing(name: string, back: string): Missing {
  return {
    title: 'First what it is',
    words: 'One thing comes first: what it is, and what harms in it.',
    ways: [enterFirst('materials', name, back)],
  }
}
