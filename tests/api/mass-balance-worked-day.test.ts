import { expect, test } from 'vitest'
import { decimal } from '../../shared/decimal.ts'
import { openReportApp } from '../support/report-app.ts'
import { replay } from '../support/worked-day-acts.ts'
import { CLOSING } from '../support/worked-day-rows.ts'
import type { Telling } from '../support/worked-day.ts'

interface Reading {
  readonly label: string
  readonly reconciledDryGrams: string
  readonly standardUncertaintyGrams: string
}

// The handbook: 0.138 kg are unaccounted for, uncertain by some 0.29 kg, not distinguishable from zero,
// "and the tool should say so".
test.each<Telling>(['dry masses as printed', 'water contents as printed'])(
  'the worked day, told with %s, agrees, and closes with the handbook’s figures within what it is sure of',
  async (telling) => {
    const day = await replay(telling)
    const report = await day.get('/v1/reports/mass-balance?month=2026-05&bodyId=buff')
    await day.close()
    expect(report['verdict']).toBe('agrees')
    const readings = report['readings'] as Reading[]
    const expectLeft = (label: string, kilograms: string) => {
      const left = readings.find((one) => one.label === label)
      const off = decimal(left?.reconciledDryGrams ?? 'NaN').minus(decimal(kilograms).times(1000))
      expect(off.abs().lessThan(left?.standardUncertaintyGrams ?? '0'), label).toBe(true)
    }
    expectLeft('What was left of bags of buff from before', CLOSING.sealed)
    expectLeft('What was left of rewedge-pile', CLOSING.rewedgePile)
    expectLeft('What was left of scrap-bin', CLOSING.scrap)
    expectLeft('What was left of slops-bucket', CLOSING.slops)
    expectLeft('What was left of reclaimed from bat-a', CLOSING.reclaim)
    expectLeft('What was left of bucket-1', CLOSING.slurry1)
  },
)

test('any month of any clay has an answer, blends and empty months among them', async () => {
  const app = await openReportApp()
  const standOut = []
  for (const month of ['2026-03', '2026-04', '2026-05', '2026-06']) {
    for (const bodyId of ['buff', 'white', 'pepper']) {
      const address = `/v1/reports/mass-balance?month=${month}&bodyId=${bodyId}`
      const { verdict, words } = await app.json(address)
      if (['nothing_to_check', 'agrees'].includes(verdict)) continue
      standOut.push([month, bodyId, verdict, words[0]])
    }
  }
  await app.close()
  // Of 5 kg of white one was wedged into the blend, and the count finds 3.9: 80 g dry are missing.
  expect(standOut).toEqual([
    ['2026-05', 'white', 'something_stands_out', expect.stringMatching(/ 80 g .*another: /)],
  ])
})
