import { decimal, type Decimal } from './decimal.ts'
import { giveOrTake } from './how-sure.ts'
import type { FoundSuspicion, MonthFinding, NamedSuspicion } from './month-finding.ts'
import type { Asking } from './month-network.ts'

type Sized = Pick<NamedSuspicion, 'what' | 'label' | 'size'>

const GRAMS_A_KILOGRAM = 1000
const NAMED_MAX = 3
/** Chance alone takes them no nearer than this in one month of forty. Our choice. */
const TOO_WELL = 0.975
const AGREE_TOO_WELL =
  'They agree even better than they claim to be unsure, so that small mistakes would not show as soon as said.'

/**
 * What a month's readings say together, in a potter's words: one sentence or two a finding.
 *
 * A name is never given alone where something else explains the month as well, or nearly. And readings
 * that agree better than chance lets them in 39 months of 40 are surer than they claim, or were not
 * independent: no alarm, but small mistakes hide in that.
 *
 * Units: kilograms from one upwards, grams below; give or take 1.96 standard uncertainties.
 * Source: our choice, because a name that is taken for proof does more harm than none.
 */
export function findingWords(
  finding: Pick<MonthFinding, 'verdict' | 'found' | 'globalTest'>,
): string[] {
  switch (finding.verdict) {
    case 'nothing_to_check':
      return ['Nothing was weighed twice over this month, so nothing can be checked.']
    case 'agrees':
      return [
        'All readings of the month agree, as well as they are known.',
        ...(finding.globalTest.pValue > TOO_WELL ? [AGREE_TOO_WELL] : []),
      ]
    case 'does_not_agree':
      return [
        'The readings of the month do not agree, and no single one explains it. Either several are a little off, or they are less sure than was thought.',
      ]
    case 'something_stands_out':
      return finding.found.map(foundWords)
  }
}

function foundWords(found: FoundSuspicion): string {
  const sentences = [mainSentence(found)]
  if (found.alike.length > 0) {
    const others = firstFew(found.alike)
    sentences.push(`It may as well be another: ${others}. Nothing tells them apart.`)
  }
  if (found.nearly.length > 0) {
    const others = firstFew(found.nearly)
    sentences.push(`Nearly as likely: ${others}.`)
  }
  return sentences.join(' ')
}

function mainSentence(found: NamedSuspicion): string {
  const { what, label, size, standardUncertainty, mistakes, asking } = found
  if (what === 'source') {
    return `${label}: off by ${timesWords(size)}, by what everything else says, and every weight that rests on it with it. Test it anew?`
  }
  const usual = asking === undefined ? usualCause(size) : questionOf(asking, size)
  const cause = mistakes.length > 0 ? mistakes.join(', or ') : usual
  const difference = `${massWords(size)} ${moreOrLess(size)}`
  const unsure = `(give or take ${massWords(giveOrTake(standardUncertainty))})`
  if (asking?.beganWith !== undefined) {
    return `The books began the month with ${difference} dry clay in ${asking.beganWith} than everything else says ${unsure}: ${cause}?`
  }
  return `${label} ${asking?.verb ?? 'weighed'} ${difference} than everything else says ${unsure}: ${cause}?`
}

function questionOf({ question, questionIfLess = question }: Asking, size: Decimal): string {
  return size.isNegative() ? questionIfLess : question
}

/** What most often makes a reading too heavy or too light. */
function usualCause(size: Decimal): string {
  return size.isNegative() ? 'was something left out, or the tare taken off twice' : 'tare'
}

function offWords({ what, label, size }: Sized): string {
  return what === 'source'
    ? `${label}, off by ${timesWords(size)}`
    : `${label}, ${massWords(size)} too ${size.isNegative() ? 'light' : 'heavy'}`
}

/** Some by name and the others by their number: a sentence that names ten says nothing. */
function firstFew(all: readonly Sized[]): string {
  const more = all.length - NAMED_MAX
  const named = all.slice(0, NAMED_MAX).map(offWords)
  return [...named, ...(more > 0 ? [`one of ${String(more)} more`] : [])].join(', or ')
}

function timesWords(size: Decimal): string {
  return `${size.abs().toFixed(1)} times its uncertainty`
}

function moreOrLess(size: Decimal): string {
  return size.isNegative() ? 'less' : 'more'
}

function massWords(grams: Decimal): string {
  const size = grams.abs()
  if (size.lessThan(GRAMS_A_KILOGRAM)) return `${size.toFixed(0)} g`
  return `${size.dividedBy(decimal(GRAMS_A_KILOGRAM)).toFixed(1)} kg`
}
