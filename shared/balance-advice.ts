import { adviceOn, type Advice, type BalancedMonth, type Offer } from './balance-offers.ts'
import { lowered } from './balance-water.ts'
import type { AlikeSuspicion, FoundSuspicion } from './month-finding.ts'

/** So many that cannot be told apart are offered something each; beyond, none is. Our choice. */
const OFFERED_MAX = 4

const CANNOT_TELL = 'The readings cannot tell which of these it was'
const CHOOSE =
  'Look at what was written down for each of them; then send what is true, for one of them.'
const FIND_OUT =
  'Look at what was written down for each of them, and weigh again what can still be weighed. Nothing is offered to send until it is known which.'

/**
 * What may be posted about what stands out, and about each other that may as well or nearly as well be
 * meant.
 *
 * Where several may be meant, there is an offer for each of them or for none: whoever finds one alone
 * ready to be sent takes it for the one that was found.
 *
 * Units: as the acts take them. Source: our choice.
 */
export function adviceOnFound(found: FoundSuspicion, month: BalancedMonth): Advice {
  const others: readonly AlikeSuspicion[] = [...found.alike, ...found.nearly]
  if (others.length === 0) return adviceOn(found, month)
  const all = [found, ...others]
  const offers = all.map((one) => offersOf(one, month))
  const names = all.slice(0, OFFERED_MAX).map(({ label }) => lowered(label))
  const more =
    all.length > names.length ? `, or one of ${String(all.length - names.length)} more` : ''
  const which = `${CANNOT_TELL}: ${names.join(', or ')}${more}.`
  const isOfferedEach = all.length <= OFFERED_MAX && offers.every((some) => some.length > 0)
  return isOfferedEach
    ? { whatNow: `${which} ${CHOOSE}`, offers: eachOnce(offers.flat()) }
    : { whatNow: `${which} ${FIND_OUT}`, offers: [] }
}

/** What is offered about one of several, saying which of them it is about. */
function offersOf(one: AlikeSuspicion, month: BalancedMonth): Offer[] {
  return adviceOn(one, month).offers.map((offer) =>
    offer.what === 'count'
      ? offer
      : { ...offer, words: `If it was ${lowered(one.label)}: ${lowered(offer.words)}` },
  )
}

/** A count of one holding may be offered for both of its sides. */
function eachOnce(offers: readonly Offer[]): Offer[] {
  const sent = ({ path, body }: Offer) => JSON.stringify([path, body])
  return offers.filter(
    (one, index) => offers.findIndex((other) => sent(other) === sent(one)) === index,
  )
}
