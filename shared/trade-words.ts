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
  mould: { UK: 'mould', US: 'mold' },
  moulds: { UK: 'moulds', US: 'molds' },
  colour: { UK: 'colour', US: 'color' },
  grey: { UK: 'grey', US: 'gray' },
  litre: { UK: 'litre', US: 'liter' },
  litres: { UK: 'litres', US: 'liters' },
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

const FROM_HOUSE: ReadonlyMap<string, string> = new Map(
  Object.values<Forms>(WORDS)
    .filter(({ UK, US }) => UK !== US)
    .map(({ UK, US }) => [UK, US]),
)

/** The longest first, or a plant pot would be looked for as a pot. */
const HOUSE_WORDS = [...FROM_HOUSE.keys()].sort((one, other) => other.length - one.length)

/** What somebody else said, such as the name of a bucket, is said as they said it. */
const SAID_BY_OTHERS = '‘[^’]*(?:’(?=\\p{L})[^’]*)*’|“[^”]*”'
/** A slab is turned over on both sides, and so is a page; one does so in turn. */
const NOT_ON_THE_WHEEL_BEFORE = '(?<!\\b(?:in|by|its|their|each|half a|quarter) )'
const NOT_ON_THE_WHEEL_AFTER =
  '(?! (?:the |a |each |every )?(?:slabs?|bats?|page|load|loads)\\b)(?! (?:it |them )?(?:over|out|up|down|into|to|round|around|about|back|upside|otherwise)\\b)(?!, lift)'

const PATTERN = new RegExp(
  `${SAID_BY_OTHERS}|(?<![\\p{L}\\d])(?:${NOT_ON_THE_WHEEL_BEFORE}(?:turn|turns|turned|turning)(?![\\p{L}\\d])${NOT_ON_THE_WHEEL_AFTER}|(?:${HOUSE_WORDS.filter(
    (word) => !/^turn(s|ed|ing)?$/.test(word),
  ).join('|')})(?![\\p{L}\\d]))`,
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
    const other = FROM_HOUSE.get(found.toLowerCase())
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
