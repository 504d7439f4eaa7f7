import type { BookedWeighing, Tare } from './balance-book.ts'
import { decimal, toLedgerScale, type Decimal } from './decimal.ts'
import { gramsFrom, type Mass } from './units.ts'

/** A known mistake: what a potter would ask, and what it would make of the wet reading. */
export interface WetMistake {
  readonly words: string
  /** The same as a note on the entry that puts it right. */
  readonly note: string
  readonly wetGrams: Decimal
  /** What was read, had it not been made; null where only the potter knows. */
  readonly reads: Readonly<Record<string, unknown>> | null
}

const GRAMS_A_POUND = decimal('453.59237')
const GRAMS_A_KILOGRAM = decimal(1000)

/**
 * What the mistakes that everybody makes would have made of one reading.
 *
 * A tare left on or taken off twice, another vessel's tare, pounds taken for kilograms, two digits
 * swapped, the bat weighed along.
 *
 * Units: wet grams too many. Source: common practice, no source.
 */
export function knownMistakes(
  weighing: BookedWeighing,
  around: { vessel: Tare | undefined; vessels: readonly Tare[]; bats: readonly Tare[] },
): WetMistake[] {
  const { vessel, vessels, bats } = around
  return [
    ...(weighing.tareGrams.isZero()
      ? tareLeftOn(weighing, vessel === undefined ? vessels : [vessel])
      : wrongTare(weighing, vessels)),
    ...bats.map(({ name, grams }) => {
      const note = `It was weighed with ${name}.`
      return { words: `was it weighed with ${name}`, note, wetGrams: grams, reads: null }
    }),
    ...wrongUnit(weighing),
    ...swappedDigits(weighing),
  ].filter(({ wetGrams }) => !wetGrams.isZero())
}

function tareLeftOn({ read, netGrams }: BookedWeighing, vessels: readonly Tare[]): WetMistake[] {
  const lighter = vessels.filter(({ grams }) => grams.lessThan(netGrams))
  return lighter.map(({ id, name, grams }) => ({
    words: `was the tare of ${name} left on`,
    note: `The tare of ${name} was left on.`,
    wetGrams: grams,
    reads: { gross: read, inVesselId: id },
  }))
}

function wrongTare(
  { tareGrams, netGrams, vesselId }: BookedWeighing,
  vessels: readonly Tare[],
): WetMistake[] {
  const gross = inGrams(netGrams.plus(tareGrams))
  const others = vessels.filter(({ id }) => id !== vesselId)
  return [
    {
      words: 'was the tare taken off twice',
      note: 'The tare was taken off twice.',
      ...{ wetGrams: tareGrams.negated(), reads: { net: gross } },
    },
    ...others.map(({ id, name, grams }) => ({
      words: `was it in ${name}`,
      note: `It was in ${name}.`,
      wetGrams: grams.minus(tareGrams),
      reads: { gross, inVesselId: id },
    })),
  ]
}

function wrongUnit({ read, netGrams, tareGrams }: BookedWeighing): WetMistake[] {
  if (read.unit !== 'kg' && read.unit !== 'lb') return []
  const isKilograms = read.unit === 'kg'
  const unit = isKilograms ? 'lb' : 'kg'
  const each = isKilograms ? GRAMS_A_POUND : GRAMS_A_KILOGRAM
  const spoken = isKilograms ? 'pounds' : 'kilograms'
  const trueNet = decimal(read.value).times(each).minus(tareGrams)
  const reads = { [tareGrams.isZero() ? 'net' : 'gross']: { value: read.value, unit } }
  const note = `It was read in ${spoken}.`
  return [{ words: `was it read in ${spoken}`, note, wetGrams: netGrams.minus(trueNet), reads }]
}

/** Two digits that stand side by side and change places. */
function swappedDigits({ read, tareGrams }: BookedWeighing): WetMistake[] {
  const digits = [...read.value]
  const places = digits.flatMap((digit, at) => (/\d/.test(digit) ? [at] : []))
  return places.slice(0, -1).flatMap((at, index) => {
    const next = places[index + 1] ?? at
    if (digits[at] === digits[next]) return []
    const value = digits.map((digit, place) => swappedAt([at, next], { digits, digit, place }))
    const mass = { value: value.join(''), unit: read.unit } as Mass
    return [
      {
        words: `was it ${mass.value} ${mass.unit}, with two digits swapped`,
        note: `It read ${mass.value} ${mass.unit}; two digits were swapped.`,
        wetGrams: gramsFrom({ value: read.value, unit: read.unit } as Mass).minus(gramsFrom(mass)),
        reads: { [tareGrams.isZero() ? 'net' : 'gross']: mass },
      },
    ]
  })
}

function swappedAt(
  [one, other]: readonly [number, number],
  of: { digits: readonly string[]; digit: string; place: number },
): string {
  if (of.place === one) return of.digits[other] ?? of.digit
  return of.place === other ? (of.digits[one] ?? of.digit) : of.digit
}

function inGrams(grams: Decimal): Mass {
  return { value: toLedgerScale(grams).toFixed(), unit: 'g' }
}
