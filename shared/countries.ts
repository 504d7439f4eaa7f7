import type { Jurisdiction } from './silica.ts'
import type { TradeSpeech } from './trade-words.ts'
import type { DateOrder } from './written-day.ts'
import type { MassSystem } from './written-mass.ts'

/** What is usual in a country, offered to a studio that begins there. */
export interface Country {
  /** ISO 3166-1, two letters. */
  readonly code: string
  readonly name: string
  /** ISO 4217. */
  readonly currency: string
  /** Its one clock; nothing where it has several. */
  readonly timeZone: string | undefined
  readonly massUnits: MassSystem
  readonly dateOrder: DateOrder
  readonly tradeWords: TradeSpeech
  readonly jurisdiction: Jurisdiction
}

/** Code, money, clock and name: a clock of `-` where there are several. */
const ROWS = `
  AR ARS America/Argentina/Buenos_Aires Argentina
  AU AUD - Australia
  AT EUR Europe/Vienna Austria
  BE EUR Europe/Brussels Belgium
  BR BRL - Brazil
  BG EUR Europe/Sofia Bulgaria
  CA CAD - Canada
  CL CLP - Chile
  CN CNY Asia/Shanghai China
  CO COP America/Bogota Colombia
  HR EUR Europe/Zagreb Croatia
  CY EUR Asia/Nicosia Cyprus
  CZ CZK Europe/Prague Czechia
  DK DKK Europe/Copenhagen Denmark
  EE EUR Europe/Tallinn Estonia
  FI EUR Europe/Helsinki Finland
  FR EUR Europe/Paris France
  DE EUR Europe/Berlin Germany
  GR EUR Europe/Athens Greece
  HU HUF Europe/Budapest Hungary
  IS ISK Atlantic/Reykjavik Iceland
  IN INR Asia/Kolkata India
  IE EUR Europe/Dublin Ireland
  IL ILS Asia/Jerusalem Israel
  IT EUR Europe/Rome Italy
  JP JPY Asia/Tokyo Japan
  KE KES Africa/Nairobi Kenya
  LV EUR Europe/Riga Latvia
  LT EUR Europe/Vilnius Lithuania
  LU EUR Europe/Luxembourg Luxembourg
  MY MYR Asia/Kuala_Lumpur Malaysia
  MT EUR Europe/Malta Malta
  MX MXN - Mexico
  MA MAD Africa/Casablanca Morocco
  NL EUR Europe/Amsterdam Netherlands
  NZ NZD Pacific/Auckland New Zealand
  NG NGN Africa/Lagos Nigeria
  NO NOK Europe/Oslo Norway
  PH PHP Asia/Manila Philippines
  PL PLN Europe/Warsaw Poland
  PT EUR - Portugal
  RO RON Europe/Bucharest Romania
  SG SGD Asia/Singapore Singapore
  SK EUR Europe/Bratislava Slovakia
  SI EUR Europe/Ljubljana Slovenia
  ZA ZAR Africa/Johannesburg South Africa
  KR KRW Asia/Seoul South Korea
  ES EUR - Spain
  SE SEK Europe/Stockholm Sweden
  CH CHF Europe/Zurich Switzerland
  TW TWD Asia/Taipei Taiwan
  TH THB Asia/Bangkok Thailand
  TR TRY Europe/Istanbul Türkiye
  UA UAH Europe/Kyiv Ukraine
  GB GBP Europe/London United Kingdom
  US USD - United States`

const EUROPEAN_UNION =
  'AT BE BG HR CY CZ DK EE FI FR DE GR HU IE IT LV LT LU MT NL PL PT RO SK SI ES SE'
const YEAR_FIRST = 'CA CN HU JP KR LT SE TW ZA'
const MONTH_FIRST = 'US PH'
const AMERICAN_WORDS = 'US CA PH MX'
const IN_POUNDS = 'US'

const isAmong = (list: string, code: string) => list.split(' ').includes(code)

/**
 * Countries with what is usual there, in the order of their English names.
 *
 * It is a start for a studio to look over, so it need not hold every country.
 *
 * Source: ISO 3166-1 and ISO 4217 for codes and money, the IANA time zone database for clocks, the
 * Unicode CLDR for units and dates; all from memory. Where American words are usual is our choice.
 */
export const COUNTRIES: readonly Country[] = ROWS.trim()
  .split('\n')
  .map((row) => {
    const [code = '', currency = '', clock = '', ...name] = row.trim().split(' ')
    return {
      code,
      name: name.join(' '),
      currency,
      timeZone: clock === '-' ? undefined : clock,
      massUnits: isAmong(IN_POUNDS, code) ? 'pounds_ounces' : 'metric',
      dateOrder: dateOrderIn(code),
      tradeWords: isAmong(AMERICAN_WORDS, code) ? 'US' : 'UK',
      jurisdiction: jurisdictionOf(code),
    }
  })

/** The country of that code. Units: ISO 3166-1, two letters. Source: as `COUNTRIES`. */
export function countryOf(code: string | undefined): Country | undefined {
  return COUNTRIES.find((country) => country.code === code)
}

function dateOrderIn(code: string): DateOrder {
  if (isAmong(YEAR_FIRST, code)) return 'year_month_day'
  return isAmong(MONTH_FIRST, code) ? 'month_day_year' : 'day_month_year'
}

function jurisdictionOf(code: string): Jurisdiction {
  if (code === 'GB' || code === 'US' || code === 'AU') return code
  return isAmong(EUROPEAN_UNION, code) ? 'EU' : 'other'
}
