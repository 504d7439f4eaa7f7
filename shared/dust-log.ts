import { LEDGER_SCALE, type Decimal } from './decimal.ts'
import type { DryMassMethod } from './dry-mass.ts'
import type { EntryKind } from './entry-kind.ts'
import { silicaCautions, type Caution, type DustyAct, type Jurisdiction } from './silica.ts'

/** What an entry kept of the clay that it was about. */
export interface DustFacts {
  readonly kind: EntryKind
  /** A dry act that was said with it. */
  readonly dryAct: string | undefined
  /** When pots were lost, where it tells of any. */
  readonly lossStage: string | undefined
  readonly estimates: readonly {
    readonly of: string
    readonly method: DryMassMethod
    readonly dryGrams: Decimal
    readonly waterGrams: Decimal
    readonly isRead: boolean
  }[]
  /** Clay that left a bucket, was thrown away or was wetted again, as wet as it was before. */
  readonly handled: readonly { readonly dryGrams: Decimal; readonly waterGrams: Decimal }[]
  /** What the studio reckons with for clay that has dried in the air: ware is loaded like that. */
  readonly airDryWetBasis: Decimal
  readonly dustThresholdWetBasis: Decimal | undefined
  readonly jurisdiction: Jurisdiction
}

/** Methods that rest on a figure for the water of clay in some state. */
const BY_WATER_FIGURE: readonly DryMassMethod[] = [
  'dry_test',
  'stated_water_content',
  'studio_tests',
  'body_figure',
  'default_for_state',
]

/**
 * The cautions that went before an entry, asked again of what it kept.
 *
 * The ledger keeps what was said, read and estimated, and not the cautions that were shown; what they
 * were shown for is all there. The figure for clay dried in the air is the one that is known now.
 *
 * Units: grams, fractions of the wet mass. Source: as `silicaCautions`; which estimates are of clay
 * that is handled follows the acts, and a test holds it against their answers.
 */
export function cautionsOfEntry(facts: DustFacts): Caution[] {
  const asked = [...contentsOf(facts).map((water) => ({ water })), ...actsOf(facts)]
  const cautions = asked.flatMap(({ water, ...act }: Asked) =>
    silicaCautions({
      handlesDryClay: act.handlesDryClay ?? false,
      dryAct: act.dryAct,
      waterContentWetBasis: water,
      dustThresholdWetBasis: facts.dustThresholdWetBasis,
      jurisdiction: facts.jurisdiction,
    }),
  )
  return cautions.filter(
    ({ why }, index) => cautions.findIndex((other) => other.why === why) === index,
  )
}

type Asked = Partial<Pick<DustyAct, 'handlesDryClay' | 'dryAct'>> & {
  readonly water?: Decimal | undefined
}

function actsOf({ kind, dryAct, estimates }: DustFacts): Asked[] {
  const hasPowders = kind === 'wedge' && estimates.some((one) => one.of === 'addition')
  return [
    ...(dryAct === undefined ? [] : [{ dryAct }]),
    ...(hasPowders ? [{ dryAct: 'mixing_powders' }] : []),
    // Whatever the clay was, its dried sample is dry.
    ...(kind === 'dry_test' ? [{ handlesDryClay: true }] : []),
  ]
}

/** The water contents of clay that was handled, each as a fraction of its wet mass. */
function contentsOf(facts: DustFacts): Decimal[] {
  const { kind, estimates, handled, airDryWetBasis } = facts
  const told = kind === 'dry_test' ? [] : estimates.filter((one) => isHandled(one, facts))
  const contents = [...told, ...handled].flatMap(({ dryGrams, waterGrams }) => {
    const wetGrams = dryGrams.plus(waterGrams)
    if (wetGrams.isZero()) return []
    return [waterGrams.dividedBy(wetGrams).toDecimalPlaces(LEDGER_SCALE)]
  })
  // Ware that is loaded for bisque is bone-dry, whatever water it was last seen with.
  return kind === 'bisque' ? [...contents, airDryWetBasis] : contents
}

function isHandled(
  { of, method, isRead }: DustFacts['estimates'][number],
  { kind, lossStage }: DustFacts,
): boolean {
  if (of === 'clay_taken') return true
  if (kind === 'lose' && lossStage === 'drying') return true
  // Pots that nobody weighed are guessed without their water.
  if (of === 'opening' && !isRead) return false
  return BY_WATER_FIGURE.includes(method)
}

/** What the log does not say. */
export const DUST_LOG_WORDS =
  'Work that raises dust, as it was written down. How much was in the air nobody measured here; a month without an entry says nothing about the room.'

/** The month of a dust log in a sentence. Units: entries. Source: none needed. */
export function dustLogWords(entries: number): string {
  if (entries === 0) return 'No dusty work was written down in this month.'
  return entries === 1
    ? 'Dusty work was written down once.'
    : `Dusty work was written down ${String(entries)} times.`
}
