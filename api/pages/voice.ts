import type { StudioView } from '../../db/catalogue-studios.ts'
import { decimal, type Decimal } from '../../shared/decimal.ts'
import { massesInWords } from '../../shared/masses-in-words.ts'
import { percentWords } from '../../shared/percent.ts'
import { wallDay, wallTime } from '../../shared/studio-clock.ts'
import { inTradeWords, tradeWord, type TradeTerm } from '../../shared/trade-words.ts'
import { writtenDay, writtenMoment, writtenMonth } from '../../shared/written-day.ts'
import { writtenMass, writtenMassSure } from '../../shared/written-mass.ts'
import { writtenMoney } from '../../shared/written-money.ts'

type Figure = Decimal | string

/** How a studio says things on its pages: its units, its money, its clock and its words. */
export interface Voice {
  readonly studio: StudioView
  /** The moment of the request. */
  readonly now: Date
  /** `12.46 kg`, `460 g`; `27 lb 7.5 oz`. `digits` are those of a kilogram: 3 is a gram. */
  readonly mass: (grams: Figure, digits?: number) => string
  /** `12.46 kg ± 0.12`: 19 times in 20 it is truly so near. */
  readonly massSure: (grams: Figure, standardUncertaintyGrams: Figure) => string
  /** `£3.20` */
  readonly money: (amount: Figure) => string
  /** `12.4 %` */
  readonly share: (fraction: Figure | number, digits?: number) => string
  /** `14 Mar 2026`; a text of ten characters is a day already. */
  readonly day: (moment: string | Date) => string
  /** `14 Mar 2026, 18:00` */
  readonly moment: (moment: string | Date) => string
  /** `October 2026`, from 2026-10. */
  readonly month: (month: string) => string
  readonly word: (term: TradeTerm) => string
  /** A sentence of the program in the studio's words and units; what stands in ‘…’ or “…” stays. */
  readonly words: (text: string) => string
}

const DAY_CHARACTERS = 10

/** The voice of a studio at that moment. */
export function voiceOf(studio: StudioView, now: Date): Voice {
  const { currency, dateOrder, massUnits, timeZone, tradeWords } = studio
  const wallDayOf = (moment: string | Date) =>
    typeof moment === 'string' && moment.length === DAY_CHARACTERS
      ? moment
      : wallDay(new Date(moment), timeZone)
  return {
    studio,
    now,
    mass: (grams, digits) => writtenMass(decimal(grams), massUnits, digits),
    massSure: (grams, standardUncertaintyGrams) =>
      writtenMassSure(
        {
          grams: decimal(grams),
          standardUncertaintyGrams: decimal(standardUncertaintyGrams),
        },
        massUnits,
      ),
    money: (amount) => writtenMoney(decimal(amount), currency),
    share: (fraction, digits) => percentWords(decimal(fraction), digits),
    day: (moment) => writtenDay(wallDayOf(moment), dateOrder),
    moment: (moment) => writtenMoment(wallTime(new Date(moment), timeZone), dateOrder),
    month: (month) => writtenMonth(month, dateOrder),
    word: (term) => tradeWord(term, tradeWords),
    words: (text) => massesInWords(inTradeWords(text, tradeWords), massUnits),
  }
}
