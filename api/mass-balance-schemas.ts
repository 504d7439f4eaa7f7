import { z } from '@hono/zod-openapi'
import { figure, trail } from './report-schemas.ts'

const figureOrNull = (description: string, example: string) =>
  z.string().nullable().openapi({ description, example })

const HOW_KNOWN = [
  ...(['weighed', 'labelled', 'counted', 'tested'] as const),
  ...(['by_the_books', 'guessed', 'not_weighed'] as const),
] as const

const what = z.enum(['reading', 'source']).openapi({
  description: 'A reading of one flow; or a figure that several readings share, a water content.',
  example: 'reading',
})
const name = {
  what,
  id: figure('Its id in this report.', '0199c1de-0000-7000-8000-00000000000e/1'),
  label: figure('What it is.', 'The turnings of 14 May (Dinner plates)'),
}

const suspected = z
  .object({
    ...name,
    tooHeavyGrams: figureOrNull('Of a reading: grams of dry clay too many.', '2104.3'),
    offByUncertainties: figureOrNull('Of a figure: so many of its uncertainties.', '4.2'),
    standardUncertainty: figure('Of that, in the same unit.', '24.1'),
    standardised: figure('In its uncertainties: chance alone gives a deviation of one.', '8.7'),
    mistakes: z
      .array(z.string())
      .openapi({ description: 'Known mistakes that would make as much of it.' }),
    trail,
  })
  .openapi('BalanceSuspect')

const offer = z
  .object({
    what: z.enum(['correct', 'count', 'dry_test']).openapi({
      description: 'The entry told again, a count, a dry test.',
      example: 'correct',
    }),
    words: figure('When to send it.', 'If so (was the tare of Red bucket left on), send this.'),
    method: z.literal('POST').openapi({ description: 'How it is sent.', example: 'POST' }),
    path: figure('Where to.', '/v1/acts/correct'),
    body: z.record(z.string(), z.unknown()).openapi({ description: 'The content to send.' }),
    fillIn: z.array(z.string()).openapi({
      description: 'What only the potter knows and puts in before sending: JSON pointers.',
    }),
  })
  .openapi('BalanceOffer')

const suspicion = suspected
  .extend({
    words: figure('What stands out, in a sentence.', 'The turnings of 14 May weighed 2.1 kg more.'),
    alike: z
      .array(z.object({ ...name, trail }).openapi('BalanceAlike'))
      .openapi({ description: 'Others that nothing tells from it.' }),
    nearly: z
      .array(suspected)
      .openapi({ description: 'Others that explain it nearly as well: within ten to one.' }),
    whatNow: figure('What to do about it.', 'Look first at what was written down that day.'),
    offers: z.array(offer).openapi({
      description:
        'What may be posted about it; where others may as well be meant, about each of them or about none. Nothing of it was posted.',
    }),
  })
  .openapi('BalanceSuspicion')

const reading = z
  .object({
    readingId: name.id,
    label: name.label,
    kind: figure('The kind of entry, or opening and closing.', 'turn'),
    from: figure('Where from: a place, or outside.', 'greenware'),
    to: figure('Where to.', 'scrap'),
    howKnown: z.enum(HOW_KNOWN).openapi({
      description: 'How it came to be known.',
      example: 'weighed',
    }),
    measuredDryGrams: figureOrNull('Dry clay by its own reading, g.', '2789'),
    measuredUncertaintyGrams: figureOrNull('One standard deviation of that, g.', '31.2'),
    reconciledDryGrams: figureOrNull(
      'Dry clay as it fits all readings, g; null where nothing determines it.',
      '2801.4',
    ),
    standardUncertaintyGrams: figureOrNull('One standard deviation of that, g.', '18.9'),
    adjustmentGrams: figureOrNull('What was added to the reading, g.', '12.4'),
    standing: z.enum(['checked', 'unchecked', 'worked_out', 'open', 'left_out']).openapi({
      description:
        'Checked by others; read, and nothing else speaks of it; worked out from the others; open, because nothing determines it; left out, because it was found not to fit.',
      example: 'checked',
    }),
    wouldShowFromGrams: figureOrNull(
      'A mistake of this size would most likely be found, g; null where none would.',
      '96.4',
    ),
    trail,
  })
  .openapi('BalanceReading')

const flow = z
  .object({
    kind: figure('The kind of entry.', 'turn'),
    from: figure('Where from.', 'greenware'),
    to: figure('Where to.', 'scrap'),
    dryGrams: figureOrNull('By their own readings, g; null where one was not weighed.', '3671'),
    reconciledDryGrams: figureOrNull('As they fit all readings, g.', '3690.2'),
    standardUncertaintyGrams: figureOrNull('One standard deviation of that, g.', '22.5'),
  })
  .openapi('BalanceFlow')

/** What the readings of a month say together, as it is answered. */
export const massBalanceSchema = z
  .object({
    studioId: z.string().openapi({ example: 'wrenfold-yard' }),
    studioName: z.string().openapi({ example: 'Wrenfold Yard' }),
    timeZone: z.string().openapi({ example: 'Europe/London' }),
    month: z.string().openapi({ example: '2026-05' }),
    bodyId: z.string().openapi({ example: 'buff' }),
    bodyName: z.string().openapi({ example: 'Buff stoneware' }),
    isClosed: z.boolean().openapi({ example: false }),
    verdict: z
      .enum(['nothing_to_check', 'agrees', 'something_stands_out', 'does_not_agree'])
      .openapi({ description: 'In a word.', example: 'something_stands_out' }),
    words: z.array(z.string()).openapi({ description: 'And in sentences.' }),
    globalTest: z
      .object({
        chiSquare: figure('How far all readings are from all balances.', '41.2'),
        degreesOfFreedom: z.int().openapi({ description: 'So many checks.', example: 18 }),
        pValue: figure('How often chance alone takes them so far.', '0.0014'),
      })
      .openapi({ description: 'The test of all readings together (chi-square).' }),
    criticalDeviation: figureOrNull(
      'A standardised deviation stands out from here on: with 95 % confidence for all together.',
      '3.1',
    ),
    suspicions: z
      .array(suspicion)
      .openapi({ description: 'What stands out, in the order in which it was found.' }),
    inLine: z
      .array(suspected)
      .openapi({ description: 'What fits least, whether it stands out or not; at most three.' }),
    nextWeighIn: z
      .object({
        words: figure('What to weigh.', 'Weigh all pots of Mugs after turning.'),
        trail: z.string().nullable().openapi({
          description: 'The holding that it is about.',
          example: null,
        }),
      })
      .nullable()
      .openapi({
        description: 'Of a month in which nothing is checked: the weigh-in that would check most.',
      }),
    readings: z
      .array(reading)
      .openapi({ description: 'Every flow of the month, and each reading of it.' }),
    flows: z.array(flow).openapi({ description: 'The flows by kind of entry and by place.' }),
  })
  .openapi('MassBalance')
