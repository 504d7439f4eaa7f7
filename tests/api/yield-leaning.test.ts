import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { g } from '../support/studio.ts'
import { openClay, openPottery, type Pottery } from './pottery.ts'

// eslint-disable-next-line @typescript-eslint/no-explicit-any
type Json = any

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  await openClay(pottery)
  for (const [formId, pieces, lost] of [
    ['mug', 40, 4],
    ['cup', 8, 1],
    ['plate', 10, 3],
    ['urn', 1, 0],
    ['mug', 1, 1],
  ] as const) {
    await make(formId, pieces, lost)
  }
})
afterAll(() => pottery.close())

let made = 0
async function make(formId: string, pieces: number, lost: number): Promise<void> {
  made += 1
  const runId = `run-${String(made)}`
  await pottery.ask('POST', '/v1/forms', { body: { formId, name: formId } })
  await pottery.does('throw', {
    ...{ formId, runId },
    from: [{ lotId: 'o1', balls: pieces, ballMass: g('200') }],
  })
  if (lost > 0) {
    const why = { stage: 'drying', cause: 'cracked across the base', vesselId: 'bucket-1' }
    await pottery.does('lose', { runId, pieces: lost, ...why })
  }
  if (lost < pieces) await pottery.does('bisque', { runs: [{ runId }] })
}

const read = async (address: string): Promise<Json> => (await pottery.ask('GET', address)).body
const makingOf = (row: Json) => row.stages.find((one: Json) => one.stage === 'making')

describe('what to reckon with', () => {
  test('a form with many pieces stands on its own', async () => {
    const { forms } = await read('/v1/reports/yield')
    const mug = makingOf(forms.find((form: Json) => form.formId === 'mug'))
    expect(mug).toMatchObject({ passed: '36', lost: '5', words: '36 of 41' })
    expect(mug.estimate).toMatchObject({ basis: 'own_pieces', yieldFraction: mug.yieldFraction })
    expect(mug.estimate.interval95).toEqual(mug.interval95)
    expect(mug.estimate.words).toBe('36 of 41: enough pieces to stand on its own')
  })

  test('one with few leans on all forms, and says on how many and how strongly', async () => {
    const { forms } = await read('/v1/reports/yield')
    const cup = makingOf(forms.find((form: Json) => form.formId === 'cup'))
    expect(cup.estimate).toMatchObject({ basis: 'leans_on_all_forms', forms: 4, pieces: 60 })
    expect(cup.estimate.words).toMatch(
      /^7 of 8: few pieces, so it leans on all 4 forms \(60 pieces\); its own count \d+ %, all forms \d+ %$/,
    )
    const width = (ends: { from: string; to: string }) => Number(ends.to) - Number(ends.from)
    expect(width(cup.estimate.interval95)).toBeLessThan(width(cup.interval95))
    expect(Number(cup.estimate.ownWeightFraction)).toBeGreaterThan(0)
    expect(Number(cup.estimate.ownWeightFraction)).toBeLessThan(1)
  })

  test('leans on the same, whether it is asked for by itself or among all', async () => {
    const all = await read('/v1/reports/yield')
    const alone = await read('/v1/reports/yield?formId=cup')
    expect(alone.forms).toEqual(all.forms.filter((form: Json) => form.formId === 'cup'))
    expect(alone.runs).toHaveLength(1)
    expect(makingOf(alone.runs[0])).not.toHaveProperty('estimate')
    expect([alone.oneOffs, alone.allForms]).toEqual([null, null])
  })

  test('leans on what all show where nothing of its own has passed a stage, or on nothing at all', async () => {
    const { forms } = await read('/v1/reports/yield')
    const glazing = forms.map((form: Json) => form.stages[2].estimate)
    expect(glazing.map(({ basis }: Json) => basis)).toEqual(Array(4).fill('not_yet_known'))
    expect(glazing[0]).toMatchObject({ yieldFraction: null, interval95: null })
  })
})

describe('one-offs', () => {
  test('are told together, the one of a form with other runs too', async () => {
    const { oneOffs } = await read('/v1/reports/yield')
    expect(oneOffs).toMatchObject({ forms: 2, runs: 2 })
    expect(makingOf(oneOffs)).toMatchObject({ passed: '1', lost: '1', words: '1 of 2' })
    expect(oneOffs.runTrails).toHaveLength(2)
    for (const address of [oneOffs.trail, ...oneOffs.runTrails]) {
      expect((await pottery.ask('GET', address)).status).toBe(200)
    }
  })

  test('are counted in: in their forms, and once in all forms', async () => {
    const { forms, allForms } = await read('/v1/reports/yield')
    expect(allForms).toMatchObject({ forms: 4, runs: 5 })
    const sum = (part: 'passed' | 'lost') =>
      forms.reduce((so: number, form: Json) => so + Number(makingOf(form)[part]), 0)
    expect(makingOf(allForms)).toMatchObject({ passed: '51', lost: '9' })
    expect([sum('passed'), sum('lost')]).toEqual([51, 9])
    expect(makingOf(allForms).interval95).not.toBeNull()
    // Five runs of all forms tell how runs differ; no form has four.
    expect(makingOf(allForms).intervalBasis).toBe('widened_as_runs_vary')
    const bases = forms.map((form: Json) => makingOf(form).intervalBasis)
    expect(new Set(bases)).toEqual(new Set(['pieces_taken_as_independent']))
  })

  test('close the table in CSV, with the whole after them', async () => {
    const { text } = await pottery.ask('GET', '/v1/reports/yield?format=csv')
    const rows = text
      .trim()
      .split('\r\n')
      .map((line) => line.split(','))
    expect(rows.slice(-2).map(([form, name, run]) => [form, name, run])).toEqual([
      ['', 'One-offs together', 'all'],
      ['', 'All forms', 'all'],
    ])
    const [headings] = rows
    const cup = rows.findIndex(([form]) => form === 'cup')
    const cell = (row: number, heading: string) => rows[row]?.[headings?.indexOf(heading) ?? -1]
    expect(cell(cup, 'making_estimate_basis')).toBe('leans_on_all_forms')
    expect(Number(cell(cup, 'making_estimate_interval95_from'))).toBeGreaterThan(0)
    expect(Number(cell(-2 + rows.length, 'making_interval95_to'))).toBeGreaterThan(0.5)
  })

  test('are none where there is none', async () => {
    const before = await read('/v1/reports/yield?to=2026-01')
    expect([before.oneOffs, before.allForms, before.forms]).toEqual([null, null, []])
  })
})
