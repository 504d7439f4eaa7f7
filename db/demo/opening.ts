import { openBooks, type OpeningItem } from '../acts/open-books.ts'
import { receiveDelivery } from '../acts/receive-delivery.ts'
import { testDry } from '../acts/dry-test.ts'
import type { Hand } from './hand.ts'

const WHAT_WAS_THERE: readonly OpeningItem[] = [
  {
    what: 'clay',
    bodyId: 'heather-buff',
    lotId: 'buff-bench',
    label: 'Buff on the bench',
    reading: { net: { value: '6.40', unit: 'kg' }, scaleId: 'platform' },
    water: { content: '0.205', basis: 'wet', standing: 'stated' },
    cost: '7.20',
  },
  {
    what: 'clay',
    bodyId: 'chalk-white',
    lotId: 'white-bench',
    label: 'White on the bench',
    reading: { net: { value: '3.10', unit: 'kg' }, scaleId: 'platform' },
    cost: '4.60',
  },
  {
    what: 'scrap',
    bodyId: 'heather-buff',
    vesselId: 'red-lid-bucket',
    state: 'air_dry',
    reading: {
      gross: { value: '5.20', unit: 'kg' },
      inVesselId: 'red-lid-bucket',
      scaleId: 'platform',
    },
    cost: '4.10',
  },
  {
    what: 'basin',
    bodyId: 'heather-buff',
    vesselId: 'long-basin',
    reading: {
      gross: { value: '10.10', unit: 'kg' },
      inVesselId: 'long-basin',
      scaleId: 'platform',
    },
    water: { content: '0.46', basis: 'wet', standing: 'stated' },
    cost: '4.40',
  },
  {
    what: 'pots',
    bodyId: 'heather-buff',
    formId: 'mug',
    runId: 'mugs-from-before',
    label: 'Mugs on the shelf when the books began',
    at: 'finished',
    grade: 'first',
    pieces: 22,
    cost: '11.00',
  },
  {
    what: 'bags',
    bodyId: 'chalk-white',
    lotId: 'old-white-bags',
    label: 'Two old bags of white, one of them hard',
    bags: 2,
    bagMass: { value: '12.5', unit: 'kg' },
    cost: '31.00',
  },
]

/** What stands in the yard on the day the books begin: some of it weighed, some only guessed. */
export async function openTheBooks(hand: Hand): Promise<void> {
  await hand.does(['07:30', 'Ines'], openBooks, {
    note: 'Begun in the middle: the shelf was counted, the pots were not weighed.',
    items: WHAT_WAS_THERE,
  })
}

/** A pallet comes: two clays, one lorry. A slice of each is dried in the oven. */
export async function takeDelivery(hand: Hand, name: string): Promise<void> {
  const bagMass = { value: '12.5', unit: 'kg' as const }
  const clay = (bodyId: string, bags: number, paid: { price: string; content: string }) => ({
    bodyId,
    lotId: `${name}-${bodyId}`,
    label: `${String(bags)} bags of ${bodyId}, ${name}`,
    bags,
    bagMass,
    price: paid.price,
    water: { content: paid.content, basis: 'wet' as const, standing: 'stated' as const },
  })
  await hand.does(['07:45', 'Tobin'], receiveDelivery, {
    clays: [
      clay('heather-buff', 13, { price: '182.00', content: '0.205' }),
      clay('chalk-white', 2, { price: '39.00', content: '0.215' }),
    ],
    freight: '42.00',
    note: 'Kerbside, no damaged bags.',
  })
  await hand.does(['07:55', 'Tobin'], testDry, {
    bodyId: 'heather-buff',
    lotId: `${name}-heather-buff`,
    state: 'as_delivered',
    sample: {
      tin: { value: '18.92', unit: 'g' },
      wetWithTin: { value: '104.37', unit: 'g' },
      dryWithTin: { value: '86.60', unit: 'g' },
    },
    note: 'A slice from the middle of one bag, overnight at 108 degrees.',
  })
}
