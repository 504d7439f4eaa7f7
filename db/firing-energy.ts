import { sql } from 'drizzle-orm'
import { present } from '../shared/assert.ts'
import { decimal, ONE, ZERO, type Decimal } from '../shared/decimal.ts'
import { firingBill } from '../shared/firing-bill.ts'
import {
  bestOfElectricity,
  energyAsSaid,
  energyByMeter,
  energyByRule,
  energyByUsual,
  energyTogether,
  isKnown,
  type FiringEnergy,
  type KnownEnergy,
} from '../shared/firing-energy.ts'
import type { KilnKind } from '../shared/kiln-load.ts'
import { Refusal } from '../shared/refusal.ts'
import type { Book } from './book.ts'
import type { Transaction } from './connection.ts'
import type { EnergySaid, FiringSaid } from './firing-said.ts'
import type { findKiln } from './materials.ts'

export type KilnRow = Awaited<ReturnType<typeof findKiln>>

/** What a fire drew from the mains and what that costs. */
export interface Electricity {
  readonly energy: KnownEnergy
  readonly candlingKilowattHours: Decimal
  readonly pricePerKilowattHour: Decimal
  readonly candlingCost: Decimal
  /** Candling among it. */
  readonly cost: Decimal
}

/** What a kiln's hours were for: pots, a kiln held low, or a fire that climbs with nothing in it. */
export type FireDoing = KilnKind | 'candling' | 'fired_empty'

interface FireAsked {
  readonly kiln: KilnRow
  readonly doing: FireDoing
  readonly said: EnergySaid & Pick<FiringSaid, 'candling'>
  /** Where it was said: '/firing', or '' where it is the whole of an act. */
  readonly at: string
}

/**
 * The electricity of a fire: by the meter, as said, as usual for this kiln, or by the rule; none where
 * only fuel was weighed.
 *
 * Refuses: `energy_must_be_told`, at the field that would tell it.
 */
export async function electricityOf(
  book: Book,
  asked: FireAsked,
): Promise<Electricity | undefined> {
  const { said, at } = asked
  const wantsNone =
    said.fuel !== undefined && said.meter === undefined && said.kilowattHours === undefined
  const fire = wantsNone ? undefined : await energyOfFire(book, asked)
  const candling = candlingOf(asked)
  const parts = [fire, candling].filter((part) => part !== undefined)
  if (parts.length === 0) return undefined
  const energy = energyTogether(parts)
  const pricePerKilowattHour = decimal(priceOf(asked) ?? priceUntold(at))
  const candlingKilowattHours = candling?.kilowattHours ?? ZERO
  const bill = firingBill({
    energy: {
      candlingKilowattHours,
      firingKilowattHours: fire?.kilowattHours ?? ZERO,
      idleKilowattHours: ZERO,
    },
    pricePerKilowattHour,
  })
  return {
    energy,
    candlingKilowattHours,
    pricePerKilowattHour,
    candlingCost: bill.candlingCost,
    cost: bill.loadCost,
  }
}

function priceOf({ said, kiln }: FireAsked): string | null {
  return said.pricePerKilowattHour ?? kiln.pricePerKilowattHour
}

function priceUntold(at: string): never {
  throw new Refusal(
    'energy_must_be_told',
    'Nobody has said what a kilowatt-hour costs. Say it here, or give the kiln its price.',
    { pointer: `${at}/pricePerKilowattHour` },
  )
}

async function energyOfFire(book: Book, asked: FireAsked): Promise<KnownEnergy> {
  const { said, at } = asked
  const told = toldWays(said)
  const wrong = told.find((way) => !isKnown(way))
  if (wrong !== undefined && !told.some(isKnown)) {
    throw new Refusal('energy_must_be_told', wrong.words, { pointer: `${at}/meter/after` })
  }
  const reckoned = await reckonedWays(pastOf(book), { ...asked, hours: said.hours })
  const best = bestOfElectricity([...told, ...reckoned])
  if (isKnown(best)) return best
  throw new Refusal(
    'energy_must_be_told',
    `Nothing tells what this fire took. ${best.words} Read the meter, say the kilowatt-hours, or give the kiln its rated power and hours.`,
    { pointer: `${at}/kilowattHours` },
  )
}

function toldWays({ meter, kilowattHours }: EnergySaid): FiringEnergy[] {
  return [
    ...(meter === undefined ? [] : [byMeter(meter)]),
    ...(kilowattHours === undefined ? [] : [asSaid(kilowattHours)]),
  ]
}

function byMeter(meter: { before: string; after: string }): FiringEnergy {
  const [finer, coarser] = [lastDigitOf(meter.before), lastDigitOf(meter.after)]
  const division = finer.lessThan(coarser) ? finer : coarser
  return energyByMeter({ before: decimal(meter.before), after: decimal(meter.after), division })
}

function asSaid(kilowattHours: string): KnownEnergy {
  const value = decimal(kilowattHours)
  const said = energyAsSaid({ value, unit: 'kilowatt_hour', division: lastDigitOf(kilowattHours) })
  return present(isKnown(said) ? said : undefined, 'kilowatt-hours that are said are known')
}

/** The step of the last digit that was written. */
function lastDigitOf(written: string): Decimal {
  const [, digitsAfter = ''] = written.split('.')
  return ONE.dividedBy(decimal(10).pow(digitsAfter.length))
}

/** Up to when fires are past, and where they are written down. */
export interface PastFires {
  readonly ledger: Transaction
  readonly studioId: string
  readonly before: Date
}

function pastOf({ ledger, studioId, facts }: Book): PastFires {
  return { ledger, studioId, before: facts.happenedAt }
}

/** As usual for this kiln, and by the rule, where these can be. Units: kilowatt-hours. */
export async function reckonedWays(
  past: PastFires,
  asked: Pick<FireAsked, 'kiln' | 'doing'> & { readonly hours?: string | undefined },
): Promise<FiringEnergy[]> {
  const { kiln, doing, hours: said } = asked
  const kind = doing === 'bisque' || doing === 'glaze' ? doing : undefined
  const usual = kind === undefined ? [] : [energyByUsual(await pastMetered(past, kiln, kind))]
  const usualHours = { bisque: kiln.bisqueHours, glaze: kiln.glazeHours }
  const hours = said ?? (kind === undefined ? null : usualHours[kind])
  if (kiln.ratedKilowatts === null || hours === null) return kind === undefined ? noRule() : usual
  const rule = energyByRule({
    ratedKilowatts: decimal(kiln.ratedKilowatts),
    hours: decimal(hours),
    // An empty kiln that climbs is taken to climb as for a bisque.
    doing: doing === 'fired_empty' ? 'bisque' : doing,
    hoursAreUsual: said === undefined,
  })
  return [...usual, rule]
}

/** Of an empty kiln nothing is usual. */
const noRule = (): FiringEnergy[] => [energyByUsual([])]

/**
 * Candling: as said, or by the rule.
 *
 * Refuses: `energy_must_be_told` where hours are said of a kiln of no rated power.
 */
function candlingOf({ said, kiln, at }: FireAsked): KnownEnergy | undefined {
  const { candling } = said
  if (candling === undefined) return undefined
  if (candling.kilowattHours !== undefined) return asSaid(candling.kilowattHours)
  const hours = decimal(present(candling.hours, 'candling says its energy or its hours'))
  if (kiln.ratedKilowatts !== null) {
    return energyByRule({
      ratedKilowatts: decimal(kiln.ratedKilowatts),
      hours,
      doing: 'candling',
    })
  }
  throw new Refusal(
    'energy_must_be_told',
    'Hours alone tell no energy: this kiln has no rated power. Say the kilowatt-hours of the candling, or give the kiln its ratedKilowatts.',
    { pointer: `${at}/candling/hours` },
  )
}

/** What this kiln took before, by the meter, in fires of that kind that stand: without candling. */
async function pastMetered(
  { ledger, studioId, before }: PastFires,
  kiln: KilnRow,
  kind: KilnKind,
): Promise<Decimal[]> {
  const rows = await ledger.execute<{ kilowattHours: string }>(sql`
    select f.kilowatt_hours - coalesce(f.candling_kilowatt_hours, 0) as "kilowattHours"
      from firing f
      join entry e on e.studio_id = f.studio_id and e.entry_id = f.entry_id
     where f.studio_id = ${studioId} and f.kiln_id = ${kiln.kilnId} and f.kind = ${kind}
       and f.how in ('meter', 'meter_and_fuel')
       and e.happened_at < ${before.toISOString()}::timestamptz
       and not exists (select from entry t
                        where t.studio_id = e.studio_id and t.reverses_entry_id = e.entry_id)`)
  return rows.map((row) => decimal(row.kilowattHours)).filter((one) => one.greaterThan(0))
}
