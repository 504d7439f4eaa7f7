import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import {
  balanceOf,
  entryOf,
  goingBack,
  lineOf,
  openGround,
  verdict,
  writeEntry,
} from './by-hand.ts'
import type { Ground, LineByHand } from './by-hand.ts'

let ground: Ground
let count = 0
let original: string

beforeAll(async () => {
  ground = await openGround()
  // So that what was paid for a fire can go back from the bench, if a rule lets it.
  const fire = { cost: '1', fire: '1' }
  const lines = [
    { to: 'bench', ...fire },
    { to: 'supplier', ...goingBack(fire) },
  ]
  await writeEntry(ground.owner, { id: 'fired', lines })
})
afterAll(() => ground.close())

const moved: LineByHand[] = [
  { to: 'bucket', dry: '-3', water: '-2', pieces: '-1', cost: '-0.5', doubt: '-0.25' },
  {
    ...{ to: 'bench', dry: '2', water: '1', pieces: '1', cost: '0.31', doubt: '0.25' },
    ...{ material: '0.5', glaze: '0.01', materialDoubt: '0.05' },
  },
  { to: 'tap', dry: '1', water: '1', cost: '0.2' },
  { to: 'shelf', material: '-0.5', cost: '-0.01', glaze: '-0.01', materialDoubt: '-0.05' },
]
const mirror: LineByHand[] = [
  { to: 'bucket', dry: '3', water: '2', pieces: '1', cost: '0.5', doubt: '0.25' },
  {
    ...{ to: 'bench', dry: '-2', water: '-1', pieces: '-1', cost: '-0.31', doubt: '-0.25' },
    ...{ material: '-0.5', glaze: '-0.01', materialDoubt: '-0.05' },
  },
  { to: 'tap', dry: '-1', water: '-1', cost: '-0.2' },
  { to: 'shelf', material: '0.5', cost: '0.01', glaze: '0.01', materialDoubt: '0.05' },
]
const [first, second, third, fourth] = mirror as [LineByHand, LineByHand, LineByHand, LineByHand]

beforeEach(async () => {
  count += 1
  original = `moved-${count}`
  await writeEntry(ground.owner, { id: original, lines: moved })
})

describe.each(['owner', 'app'] as const)('a reversal, by the hand of the %s:', (writer) => {
  const reversed = (lines: LineByHand[], reverses = original) =>
    verdict(ground[writer], entryOf({ id: `back-${reverses}`, kind: 'reverse', reverses, lines }))

  test('one that mirrors line by line is kept, and the holdings are as before', async () => {
    const before = [await balanceOf(ground.owner, 'bucket'), await balanceOf(ground.owner, 'bench')]
    await writeEntry(ground.owner, { id: `again-${original}`, lines: moved })
    expect(await reversed(mirror, `again-${original}`)).toBe('went through')
    const after = [await balanceOf(ground.owner, 'bucket'), await balanceOf(ground.owner, 'bench')]
    expect(after.flat().map(Number)).toEqual(before.flat().map(Number))
  })

  test('the order of its lines does not matter', async () => {
    expect(await reversed([...mirror].reverse())).toBe('went through')
  })

  const almost: { how: string; lines: LineByHand[] }[] = [
    { how: 'goes the same way again', lines: moved },
    { how: 'moves nothing', lines: [] },
    {
      how: 'takes back half',
      lines: [
        { to: 'bucket', dry: '1.5' },
        { to: 'bench', dry: '-1.5' },
      ],
    },
    {
      how: 'leaves out a line',
      lines: [{ ...first, dry: '2', water: '1', cost: '0.3' }, second, fourth],
    },
    {
      how: 'adds a pair of lines',
      lines: [...mirror, { to: 'supplier', dry: '-1' }, { to: 'empty', dry: '1' }],
    },
    {
      how: 'goes to another holding',
      lines: [first, { ...second, to: 'supplier' }, third, fourth],
    },
    {
      how: 'swaps two holdings',
      lines: [first, { ...second, to: 'tap' }, { ...third, to: 'bench' }, fourth],
    },
    {
      how: 'differs in dry clay by a millionth',
      lines: [{ ...first, dry: '3.000001' }, { ...second, dry: '-2.000001' }, third, fourth],
    },
    {
      how: 'differs in water',
      lines: [{ ...first, water: '1' }, { ...second, water: '0' }, third, fourth],
    },
    {
      how: 'differs in pieces',
      lines: [{ ...first, pieces: '2' }, { ...second, pieces: '-2' }, third, fourth],
    },
    {
      how: 'differs in cost',
      lines: [{ ...first, cost: '0.6' }, second, { ...third, cost: '-0.3' }, fourth],
    },
    {
      how: 'differs in doubt',
      lines: [{ ...first, doubt: '0.24' }, { ...second, doubt: '-0.24' }, third, fourth],
    },
    {
      how: 'differs in the doubt of its cost',
      lines: [{ ...first, costDoubt: '0.24' }, { ...second, costDoubt: '-0.24' }, third, fourth],
    },
    {
      how: 'differs in materials',
      lines: [first, { ...second, material: '-0.4' }, third, { ...fourth, material: '0.4' }],
    },
    {
      how: 'calls glaze what was clay, and clay what was glaze',
      lines: [first, { ...second, glaze: '-0.02' }, { ...third, glaze: '0.01' }, fourth],
    },
    {
      how: 'gives back as firing what was glaze',
      lines: [
        first,
        { ...second, glaze: '0', fire: '-0.01' },
        third,
        { ...fourth, glaze: '0', fire: '0.01' },
      ],
    },
    {
      how: 'differs in the doubt of its materials',
      lines: [
        first,
        { ...second, materialDoubt: '-0.04' },
        third,
        { ...fourth, materialDoubt: '0.04' },
      ],
    },
  ]

  test.each(almost)('one that $how is refused', async ({ lines }) => {
    expect(await reversed(lines)).toBe('reversal_must_mirror')
  })

  test('one entry is not reversed twice', async () => {
    expect(await reversed(mirror)).toBe('went through')
    const again = entryOf({ id: 'twice', kind: 'reverse', reverses: original, lines: mirror })
    expect(await verdict(ground[writer], again)).toBe('entry_must_not_be_reversed_already')
  })

  test('a reversal is not reversed', async () => {
    await reversed(mirror)
    expect(await reversed(moved, `back-${original}`)).toBe('entry_must_not_be_a_reversal')
  })

  test('an entry does not reverse itself', async () => {
    const itself = entryOf({ id: 'self', kind: 'reverse', reverses: 'self', lines: [] })
    expect(await verdict(ground[writer], itself)).toBe('entry_must_not_be_a_reversal')
  })

  test('what it reverses is in the ledger of this studio', async () => {
    await writeEntry(ground.owner, { id: `hill-${original}`, studio: 'hill', lines: moved })
    expect(await reversed(mirror, `hill-${original}`)).toBe('entry_reverses_an_entry')
    expect(await reversed(mirror, 'never-written')).toBe('entry_reverses_an_entry')
  })

  test('a reversal says so and nothing else does', async () => {
    const unsaid = entryOf({ id: 'unsaid', kind: 'turn', reverses: original, lines: mirror })
    expect(await verdict(ground[writer], unsaid)).toBe('entry_reversal_names_its_entry')
    const ofNothing = entryOf({ id: 'nothing', kind: 'reverse', lines: mirror })
    expect(await verdict(ground[writer], ofNothing)).toBe('entry_reversal_names_its_entry')
  })

  test('an entry that moved nothing is reversed by one that moves nothing', async () => {
    await writeEntry(ground.owner, { id: `read-${original}`, kind: 'read_slurry' })
    const pair = [
      first,
      { to: 'bench', dry: '-3', water: '-2', pieces: '-1', cost: '-0.5', doubt: '-0.25' },
    ]
    expect(await reversed(pair, `read-${original}`)).toBe('reversal_must_mirror')
    expect(await reversed([], `read-${original}`)).toBe('went through')
  })

  describe('whoever has the question put early', () => {
    const early = 'set constraints all immediate; set constraints all deferred;'
    const onTop = (entry: string) =>
      lineOf(entry, 5, { to: 'supplier', dry: '-1' }) + lineOf(entry, 6, { to: 'empty', dry: '1' })

    test('does not add lines to a reversal after the answer', async () => {
      const id = `back-${original}`
      const back = entryOf({ id, kind: 'reverse', reverses: original, lines: mirror })
      expect(await verdict(ground[writer], back + early + onTop(id))).toBe('reversal_must_mirror')
    })

    test('does not add lines to what was reversed after the answer', async () => {
      const forth = entryOf({ id: 'forth', lines: moved })
      const back = entryOf({ id: 'back', kind: 'reverse', reverses: 'forth', lines: mirror })
      expect(await verdict(ground[writer], forth + back + early + onTop('forth'))).toBe(
        'reversal_must_mirror',
      )
    })
  })
})
