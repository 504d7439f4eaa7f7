import { z } from '@hono/zod-openapi'
import { costLayersSchema } from './entry-fact-schemas.ts'
import { figure, idOrNull, stockFigures, trail } from './report-schemas.ts'

const linkOrNull = (description: string) =>
  z.string().nullable().openapi({ description, example: null })
const links = (description: string) =>
  z.array(z.string()).openapi({ description, example: ['/v1/lots/bags'] })
const moment = (description: string) =>
  z.string().openapi({ description, format: 'date-time', example: '2026-03-14T08:30:00.000Z' })

const amounts = {
  dryGrams: figure('Dry clay, g.', '-3200'),
  waterGrams: figure('Water, g.', '-800'),
  pieces: figure('Pieces or bags.', '0'),
  cost: figure('Cost.', '-7.2'),
}

const lineSure = {
  dryUncertaintyGrams: figure('One standard deviation of the dry clay, g.', '36'),
  costUncertainty: figure('One standard deviation of the cost.', '0.08'),
}

const whereabouts = {
  holdingId: z.string().openapi({ example: 'b0e5f2' }),
  place: z.string().openapi({ example: 'bench' }),
  lotId: idOrNull('The lot.'),
  runId: idOrNull('The run.'),
  vesselId: idOrNull('The vessel.'),
}

const counts = {
  entryId: z.string().openapi({ example: '0199c1de-0000-7000-8000-000000000000' }),
  kind: z.string().openapi({ example: 'throw' }),
  countsAs: figure('The kind that it counts as: a reversal counts as what it takes back.', 'throw'),
  happenedAt: moment('When it happened.'),
}

const entryLinks = {
  self: figure('This entry.', '/v1/entries/0199c1de-0000-7000-8000-000000000000'),
  reverses: linkOrNull('The entry that it takes back.'),
  reversedBy: linkOrNull('The entry that took it back.'),
}

export const entryListedSchema = z
  .object({
    ...counts,
    recordedAt: moment('When it was written down.'),
    recordedBy: idOrNull('Who did it.'),
    note: idOrNull('What was noted.'),
    reversesEntryId: idOrNull('The entry that it takes back.'),
    reversedByEntryId: idOrNull('The entry that took it back.'),
    lines: z.array(
      z
        .object({
          ...whereabouts,
          bodyId: z.string().nullable().openapi({ example: 'buff' }),
          materialId: idOrNull('The material, of powders, glaze in buckets, boxes and gas.'),
          ...amounts,
          materialGrams: figure('Dry material that is no clay: glaze, powders, gas, g.', '0'),
          costLayers: costLayersSchema,
          ...lineSure,
          trail,
        })
        .openapi('TracedLine'),
    ),
    links: z.object(entryLinks),
  })
  .openapi('ListedEntry')

export const entryLinksSchema = z
  .object({
    ...entryLinks,
    holdings: links('The holdings that it moved.'),
    lots: links('The lots that those are of.'),
    runs: links('The runs that those are of.'),
    madeLots: links('Lots that it made.'),
    madeRuns: links('Runs that it began.'),
  })
  .openapi('EntryLinks')

const holding = {
  ...whereabouts,
  isInside: z.boolean().openapi({
    description: 'False of the world outside, which keeps no balance.',
    example: true,
  }),
  bodyId: idOrNull('The clay.'),
  materialId: idOrNull('The material, where it is no clay.'),
  grade: idOrNull('first or second, of finished pots.'),
  ...stockFigures,
  materialGrams: figure('Dry, of what is no clay: a powder, a glaze, glaze on pots; g.', '0'),
  costLayers: z.record(z.string(), z.string()).openapi({
    description:
      'What of the cost is not for clay: glaze, fire, wear or packaging; those that are nothing are left out.',
    example: { glaze: '1.84' },
  }),
  unsureBecause: z
    .array(
      z
        .object({
          because: figure('What makes the dry mass unsure.', 'a reading of the scale'),
          standardUncertainty: figure('By so much if it were alone, g.', '2.9'),
        })
        .openapi('ReasonUnsure'),
    )
    .openapi({ description: 'Why its dry mass is unsure, the weightiest reason first.' }),
  links: z
    .object({
      self: figure('This holding.', '/v1/holdings/b0e5f2'),
      entries: figure('What moved it.', '/v1/entries?holdingId=b0e5f2'),
      body: linkOrNull('Its clay.'),
      material: linkOrNull('Its material.'),
      lot: linkOrNull('Its lot.'),
      run: linkOrNull('Its run.'),
      vessel: linkOrNull('Its vessel.'),
    })
    .openapi('HoldingLinks'),
}

export const holdingSchema = z.object(holding).openapi('Holding')

export const passageSchema = z
  .object({
    kind: z.string().openapi({ example: 'open_bag' }),
    ...whereabouts,
    entries: z.int().openapi({ description: 'By how many entries.', example: 1 }),
    dryGrams: figure('Dry clay, g: of what passed, no more than came or went in all.', '16000'),
    cost: figure('Cost.', '36'),
    isShare: z.boolean().openapi({
      description:
        'True: clay went from several places to several, nobody knows which to which, and this is the share by dry mass.',
      example: false,
    }),
    links: z
      .object({
        holding: figure('The holding.', '/v1/holdings/b0e5f2'),
        lot: linkOrNull('Its lot.'),
        run: linkOrNull('Its run.'),
        vessel: linkOrNull('Its vessel.'),
      })
      .openapi('PassageLinks'),
    trail,
  })
  .openapi('Passage')

const standing = (description: string) => z.object(amounts).openapi({ description })

export const holdingTracedSchema = z
  .object({
    ...holding,
    cameFrom: z.array(passageSchema).openapi({
      description: 'What gave clay to it; empty for the world outside.',
    }),
    lines: z
      .object({
        items: z.array(
          z
            .object({
              ...counts,
              before: standing('What stood there before.'),
              change: standing('What the entry moved.'),
              after: standing('What stood there after.'),
              trail,
            })
            .openapi('HoldingLine'),
        ),
        nextCursor: z
          .string()
          .nullable()
          .openapi({ description: 'Of the next lines.', example: null }),
      })
      .openapi({ description: 'What moved it, newest first.' }),
  })
  .openapi('TracedHolding')

const lot = {
  lotId: z.string().openapi({ example: 'bags' }),
  kind: figure('delivery, opened, load, reclaimed, wedged or earlier.', 'delivery'),
  bodyId: z.string().openapi({ example: 'buff' }),
  label: z.string().openapi({ example: '40 bags of buff' }),
  madeByEntryId: z.string().openapi({ example: '0199c1de-0000-7000-8000-000000000000' }),
  batId: idOrNull('The bat that a load lies or lay on.'),
  bags: z.int().nullable().openapi({ description: 'Bags at first.', example: 40 }),
  goodsPrice: idOrNull('What its clay cost at the supplier’s.'),
  freight: idOrNull('Its share of the freight.'),
  dryGramsAtFirst: idOrNull('Its dry clay as it was first reckoned, g.'),
  links: z
    .object({
      self: figure('This lot.', '/v1/lots/bags'),
      madeBy: figure('The entry that made it.', '/v1/entries/0199c1de'),
      body: figure('Its clay.', '/v1/bodies/buff'),
      bat: linkOrNull('Its bat.'),
      holdings: figure('Where it is or was.', '/v1/holdings?lotId=bags&nonEmpty=false'),
      entries: figure('What moved it.', '/v1/entries?lotId=bags'),
    })
    .openapi('LotLinks'),
}

export const lotSchema = z.object(lot).openapi('Lot')

export const lotTracedSchema = z
  .object({
    ...lot,
    isNow: z.array(holdingSchema).openapi({ description: 'Where its clay is now, as this lot.' }),
    cameFrom: z.array(passageSchema).openapi({ description: 'What gave clay to it.' }),
    wentTo: z.array(passageSchema).openapi({ description: 'What took clay from it.' }),
  })
  .openapi('TracedLot')
