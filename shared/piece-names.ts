import type { Grade } from './place.ts'

/** A form and grade that a name in a file most likely means. */
export interface NameMeant {
  readonly formId: string
  readonly grade: Grade
  /** The same name, or only one that is like it. */
  readonly how: 'equal' | 'similar'
}

const SECONDS =
  /\b(seconds?|2nds?|b-?grade|grade[ -]?b|imperfect|slightly faulty|zweite wahl|ii\.? wahl|second choix)\b/i
const SECOND_GRADE = /^(2|ii|b|second|seconds|2nd)$/i
const LIKE_ENOUGH = 0.6

/**
 * The grade that the words of a name, or the cell of a grade, speak of: a first where nothing is said.
 *
 * Source: words of the trade.
 */
export function gradeMeant(name: string, gradeCell = ''): Grade {
  const isSecond = SECOND_GRADE.test(gradeCell.trim()) || SECONDS.test(`${name} ${gradeCell}`)
  return isSecond ? 'second' : 'first'
}

/**
 * The form and grade that a name in a file most likely means; undefined where none is like it.
 *
 * Equal without capitals, accents and the words for a grade; else the form whose every word is in the
 * name; else the one most like it by pairs of letters.
 *
 * Source: our choice; L. R. Dice's coefficient of 1945 for what is like.
 */
export function nameMeant(
  said: { readonly name: string; readonly gradeCell?: string | undefined },
  forms: readonly { readonly formId: string; readonly name: string }[],
): NameMeant | undefined {
  const grade = gradeMeant(said.name, said.gradeCell)
  const words = wordsOf(said.name.replace(SECONDS, ' '))
  const known = forms.map(({ formId, name }) => ({ formId, words: wordsOf(name) }))
  const equal = known.find((form) => form.words.join(' ') === words.join(' '))
  if (equal !== undefined) return { formId: equal.formId, grade, how: 'equal' }
  const similar = withAllWords(words, known) ?? mostLike(words, known)
  return similar === undefined ? undefined : { formId: similar.formId, grade, how: 'similar' }
}

interface KnownForm {
  readonly formId: string
  readonly words: readonly string[]
}

/** Of the forms whose every word stands in the name, the one with most words. */
function withAllWords(words: readonly string[], known: readonly KnownForm[]) {
  return known
    .filter((form) => form.words.length > 0 && form.words.every((word) => words.includes(word)))
    .sort((one, other) => other.words.length - one.words.length)[0]
}

function mostLike(words: readonly string[], known: readonly KnownForm[]): KnownForm | undefined {
  const name = words.join(' ')
  const [best] = known
    .map((form) => ({ form, likeness: likeness(name, form.words.join(' ')) }))
    .sort((one, other) => other.likeness - one.likeness)
  return best !== undefined && best.likeness >= LIKE_ENOUGH ? best.form : undefined
}

/** Shared pairs of letters twice over all pairs: 0 to 1. */
function likeness(one: string, other: string): number {
  const ours = pairsOf(one)
  const theirs = pairsOf(other)
  const all = ours.length + theirs.length
  let shared = 0
  for (const pair of ours) {
    const place = theirs.indexOf(pair)
    if (place === -1) continue
    theirs.splice(place, 1)
    shared += 1
  }
  return all === 0 ? 0 : (2 * shared) / all
}

function pairsOf(text: string): string[] {
  return Array.from({ length: Math.max(text.length - 1, 0) }, (_, at) => text.slice(at, at + 2))
}

/** Words in small letters without accents, brackets and the s of several. */
function wordsOf(name: string): string[] {
  return name
    .slice(0, 200)
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/\([^)]*\)/g, ' ')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
    .map((word) => (word.length > 3 ? word.replace(/(?<!s)s$/, '') : word))
}
