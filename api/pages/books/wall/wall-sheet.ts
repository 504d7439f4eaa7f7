import type { Context } from 'hono'
import { moistureOfBody } from '../../../../db/reports/moisture.ts'
import type { ClayState } from '../../../../shared/moisture.ts'
import { silicaCautions, type SilicaLimit } from '../../../../shared/silica.ts'
import type { Environment } from '../../../services.ts'
import {
  allBats,
  allBodies,
  allForms,
  allVessels,
  type Bat,
  type Form,
  type Vessel,
} from '../../things.ts'

type PageContext = Context<Environment>

/** The states of clay that stand on the wall: as it comes, as it is thrown, and as it is turned off. */
export const WALL_STATES = ['as_delivered', 'wedged', 'turnings'] as const satisfies ClayState[]

/** A clay with its water in each of those states. */
export interface WallClay {
  readonly name: string
  readonly water: readonly { readonly content: string; readonly isMeasured: boolean }[]
}

/** All that hangs on the wall. */
export interface WallSheet {
  readonly forms: readonly Form[]
  readonly clays: readonly WallClay[]
  readonly vessels: readonly Vessel[]
  readonly bats: readonly Bat[]
  readonly dust: {
    readonly instead: readonly string[]
    readonly limits: readonly SilicaLimit[]
    readonly deferTo: string
  }
}

/** What the studio works with, and how it keeps dust down. */
export async function wallSheet(c: PageContext): Promise<WallSheet> {
  const [forms, bodies, vessels, bats] = await Promise.all([
    allForms(c),
    allBodies(c),
    allVessels(c),
    allBats(c),
  ])
  const clays = await Promise.all(
    bodies.map(async ({ bodyId, name }) => ({ name, water: await waterOf(c, bodyId) })),
  )
  return { forms, clays, vessels, bats, dust: dustOf(c) }
}

async function waterOf(c: PageContext, bodyId: string): Promise<WallClay['water']> {
  const rows = await moistureOfBody(c.get('services').db, c.get('studioId'), bodyId)
  return WALL_STATES.flatMap((state) => {
    const row = rows.find((one) => one.state === state)
    if (row === undefined) return []
    return [{ content: row.waterContentWetBasis, isMeasured: row.method === 'studio_tests' }]
  })
}

/** What to do instead of raising dust, each once, as before a dry act. */
function dustOf(c: PageContext): WallSheet['dust'] {
  const cautions = silicaCautions({
    handlesDryClay: true,
    dryAct: 'sweeping',
    waterContentWetBasis: undefined,
    dustThresholdWetBasis: undefined,
    jurisdiction: c.get('voice').studio.jurisdiction,
  })
  return {
    instead: [...new Set(cautions.flatMap(({ instead }) => instead))],
    limits: cautions[0]?.limits ?? [],
    deferTo: cautions[0]?.deferTo ?? '',
  }
}

const LETTERS = [
  { letters: 'large', rowsMax: 15 },
  { letters: 'middle', rowsMax: 24 },
] as const

/** How large letters can be so that all of it is one page; large ones are read from two metres. */
export function lettersOf({
  forms,
  clays,
  vessels,
  bats,
}: WallSheet): 'large' | 'middle' | 'small' {
  const rows = Math.max(forms.length, vessels.length + bats.length) + clays.length
  return LETTERS.find(({ rowsMax }) => rows <= rowsMax)?.letters ?? 'small'
}
