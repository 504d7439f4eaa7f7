export const TRADE_SPEECHES = ['UK', 'US'] as const

/** Whose form of the trade's words a studio uses. */
export type TradeSpeech = (typeof TRADE_SPEECHES)[number]

type Forms = Readonly<Record<TradeSpeech, string>>

/**
 * The words that potters say otherwise on either side of the ocean, and those that they share.
 *
 * `biscuit` is the older word in Britain; both sides understand bisque, so both read it here.
 *
 * Source: handbook, section 7; that the plurals and the other parts of speech follow is our choice.
 */
const WORDS = {
  turnings: { UK: 'turnings', US: 'trimmings' },
  turning: { UK: 'turning', US: 'trimming' },
  turn: { UK: 'turn', US: 'trim' },
  turns: { UK: 'turns', US: 'trims' },
  turned: { UK: 'turned', US: 'trimmed' },
  jug: { UK: 'jug', US: 'pitcher' },
  jugs: { UK: 'jugs', US: 'pitchers' },
  waster: { UK: 'waster', US: 'discard' },
  wasters: { UK: 'wasters', US: 'discards' },
  glostFiring: { UK: 'glost firing', US: 'glaze firing' },
  glostKiln: { UK: 'glost kiln', US: 'glaze kiln' },
  glost: { UK: 'glost', US: 'glaze' },
  biscuit: { UK: 'bisque', US: 'bisque' },
  onceFired: { UK: 'once-fired', US: 'single-fired' },
  boneDry: { UK: 'bone-dry', US: 'bone dry' },
  plantPot: { UK: 'plant pot', US: 'planter' },
  plantPots: { UK: 'plant pots', US: 'planters' },
  planter: { UK: 'planter', US: 'planter' },
  settlingTank: { UK: 'settling tank', US: 'sink trap' },
  dustbin: { UK: 'dustbin', US: 'trash can' },
  bucket: { UK: 'bucket', US: 'bucket' },
  slops: { UK: 'slops', US: 'slops' },
  slip: { UK: 'slip', US: 'slip' },
  reclaim: { UK: 'reclaim', US: 'reclaim' },
  plasterBat: { UK: 'plaster bat', US: 'plaster bat' },
  wareBoard: { UK: 'ware board', US: 'ware board' },
} as const satisfies Readonly<Record<string, Forms>>

/** A word of the trade that has two forms, or might have. */
export type TradeTerm = keyof typeof WORDS

/**
 * A word of the trade in the form that a studio uses.
 *
 * Units: none. Source: as the table above: handbook, section 7.
 */
export function tradeWord(term: TradeTerm, speech: TradeSpeech): string {
  return WORDS[term][speech]
}

/** What is spelled otherwise and is no word of the trade. Source: common usage. */
const SPELLINGS: readonly Forms[] = [
  { UK: 'mould', US: 'mold' },
  { UK: 'moulds', US: 'molds' },
  { UK: 'colour', US: 'color' },
  { UK: 'grey', US: 'gray' },
  { UK: 'litre', US: 'liter' },
  { UK: 'litres', US: 'liters' },
  { UK: 'centimetres', US: 'centimeters' },
  { UK: 'labour', US: 'labor' },
]

const AMERICAN: ReadonlyMap<string, string> = new Map(
  [...Object.values<Forms>(WORDS), ...SPELLINGS]
    .filter(({ UK, US }) => UK !== US)
    .map(({ UK, US }) => [UK, US]),
)

/**
 * What somebody else said, such as the name of a bucket, is said as they said it: patterns of quotes.
 *
 * Units: none. Source: our own way of quoting.
 */
export const SAID_BY_OTHERS: readonly string[] = [
  String.raw`‘[^’]*(?:’(?=\p{L})[^’]*)*’`,
  '“[^”]*”',
  String.raw`(?<!\p{L})'[^']+'(?!\p{L})`,
]

/** Forms of a verb that is not always the wheel's: a slab is turned over, and one does so in turn. */
const TURN = ['turning', 'turned', 'turns', 'turn']
const NO_WHEEL_BEFORE = String.raw`(?<!\b(?:in|by|its|their|each|half a|quarter) )`
const NO_WHEEL_AFTER = [
  String.raw`(?! (?:the |a |each |every )?(?:slab|bat|load|page)s?\b)`,
  String.raw`(?! (?:it |them |the two )?(?:over|out|up|down|into|to|round|around|about|back|upside|otherwise)\b)`,
  '(?!, lift)',
].join('')

const BEGINS = String.raw`(?<![\p{L}\d])`
const ENDS = String.raw`(?![\p{L}\d])`

/** The longest first, or in a glost firing the glost alone would be found. */
const PLAIN = [...AMERICAN.keys()]
  .filter((word) => !TURN.includes(word))
  .sort((one, other) => other.length - one.length)

const PATTERN = new RegExp(
  [
    ...SAID_BY_OTHERS,
    `${BEGINS}(?:${PLAIN.join('|')})${ENDS}`,
    `${BEGINS}${NO_WHEEL_BEFORE}(?:${TURN.join('|')})${ENDS}${NO_WHEEL_AFTER}`,
  ].join('|'),
  'giu',
)

/**
 * A sentence of the program, which is written in the house's British English, in a studio's form.
 *
 * Whole words alone are put otherwise, and keep their capital; what stands in ‘…’ or “…” was said by
 * somebody else and stays. To turn means the wheel only where nothing beside it says that a slab or
 * anything else is turned over.
 *
 * Units: none. Source: as `tradeWord`.
 */
export function inTradeWords(sentence: string, speech: TradeSpeech): string {
  if (speech === 'UK') return sentence
  return sentence.replace(PATTERN, (found) => {
    const other = AMERICAN.get(found.toLowerCase())
    return other === undefined ? found : withCapitalsOf(found, other)
  })
}

function withCapitalsOf(model: string, word: string): string {
  if (model.length > 1 && model === model.toUpperCase()) return word.toUpperCase()
  const [first = '', ...rest] = word
  return model.startsWith(model[0]?.toUpperCase() ?? '')
    ? first.toUpperCase() + rest.join('')
    : word
}
