import { expect } from 'vitest'
import type { Day } from './day.ts'

/** The books are begun. */
export async function begin(day: Day): Promise<void> {
  const { hand } = day
  await day.today()
  await hand.words('name', 'The long shed')
  await hand.pick('country', /Kingdom|Britain/)
  await hand.go('Fill in what is usual there', 'button')
  await hand.look('begin')
  await hand.go('Begin the books', 'button')
  expect(await hand.read()).toContain('Enter a clay')
  await hand.look('what-to-enter-first')
}

/** Clay, forms, vessels, a scale and bats are entered. */
export async function enterThings(day: Day): Promise<void> {
  const { hand } = day
  const { page } = hand
  const enter = async (kind: string, fill: () => Promise<void>) => {
    await page.goto(`/books/things/${kind}/new`)
    await fill()
    await hand.go('Enter it', 'button')
    expect(await hand.read()).toContain('Entered:')
  }
  await enter('bodies', async () => {
    await hand.words('name', 'Buff stoneware')
    await hand.digits('lossOnIgnitionFraction', '7.5')
  })
  await hand.look('clays')
  for (const [name, ball, price] of [
    ['Mug', '400', '18'],
    ['Plate', '1600', '24'],
  ] as const) {
    await enter('forms', async () => {
      await hand.words('name', name)
      await hand.digits('ballGrams', ball)
      await hand.digits('price', price)
    })
  }
  for (const [name, kind, tare] of [
    ['Turnings, white lid', 'bucket', '400'],
    ['Slops pail', 'bucket', '400'],
    ['Long basin', 'basin', '900'],
    ['Ash board', 'board', '2200'],
  ] as const) {
    await enter('vessels', async () => {
      await hand.words('name', name)
      await hand.choose('kind', kind)
      await hand.digits('tareGrams', tare)
    })
  }
  await hand.look('vessels')
  await enter('scales', async () => {
    await hand.words('name', 'Bench scale')
    await hand.digits('divisionGrams', '10')
    await hand.digits('capacityGrams', '30')
  })
  for (const [name, dry] of [
    ['Window bat', '7.10'],
    ['Door bat', '7.00'],
  ] as const) {
    await enter('bats', async () => {
      await hand.words('name', name)
      await hand.digits('dryGrams', dry)
    })
  }
  await hand.look('bats')
}

/** Clay comes in, is opened, and some was here before. */
export async function takeClayIn(day: Day): Promise<void> {
  const { hand } = day
  await day.today()
  await hand.look('today-at-first')
  await hand.go(/Enter the clay that came in/)
  await hand.digits('bags', '10')
  await hand.digits('bagMass', '12.5')
  await hand.digits('price', '150')
  await hand.digits('freight', '12')
  await hand.look('delivery')
  expect(await hand.press()).toContain('10 bags')
  await hand.look('stock')
  await hand.go('Open bags')
  await hand.step('How many are opened', 1)
  await hand.look('open-bags')
  expect(await hand.press()).toContain('Bags opened')
  await hand.page.goto('/books/opening')
  await hand.go(/A bucket of scrap that is here/)
  await hand.choose('vesselId', /Turnings, white lid/)
  await hand.choose('state', 'air_dry')
  await hand.digits('gross', '3.20')
  await hand.look('was-here')
  expect(await hand.press()).toMatch(/2\.80 kg net, .* dry clay, now in Turnings, white lid/)
  await hand.look('opening')
}

/** Mugs are thrown, and thrown again with three taps. */
export async function throwMugs(day: Day): Promise<void> {
  const { hand } = day
  await day.today()
  await hand.go('Wheel')
  await hand.go('Throw')
  await hand.go(/^Mug/)
  await hand.digits('balls', '12')
  await hand.look('throw')
  expect(await hand.press()).toMatch(/Thrown: 12 pieces, 4\.80 kg net/)
  await hand.look('thrown')
  await day.counts('throw the same as last time', async () => {
    await hand.go('Wheel')
    await hand.go(/Mug again/)
    expect(await hand.press()).toMatch(/Thrown: 12 pieces, 4\.80 kg net/)
  })
  await hand.look('thrown-again')
}

/** Handles are joined, slops collected, mugs turned, and one is lost. */
export async function joinTurnAndLose(day: Day): Promise<void> {
  const { hand } = day
  await day.lastRun(/^Mug, /)
  await hand.go(/^Join on/)
  await hand.digits('ballMass', '60')
  await hand.look('join')
  expect(await hand.press()).toMatch(/Joined on: 720 g net/)
  await day.lastRun(/^Mug, /)
  await hand.go(/^Slops/)
  if (!(await hand.page.locator('[name="runIds"]').first().isChecked())) {
    await hand.choose('runIds', /^Mug, /)
  }
  await hand.choose('vesselId', /Slops pail/)
  await hand.digits('amount', '0.90')
  await hand.look('slops')
  expect(await hand.press()).toMatch(/900 g net, .* into Slops pail/)
  // The first turnings of a studio are told where they go; the next ones go there by themselves.
  await day.lastRun(/^Mug, /)
  await hand.go(/^Turn/)
  await hand.choose('vesselId', /Turnings, white lid/)
  await hand.digits('amount', '0.40')
  expect(await hand.press()).toMatch(/Turned: 400 g net, .* into Turnings, white lid/)
  await day.counts('turn, with the turnings weighed', async () => {
    await hand.go(/^Mug, .* not turned/)
    await hand.go(/^Turn/)
    await hand.digits('amount', '0.42')
    await hand.look('turn')
    expect(await hand.press()).toMatch(/Turned: 420 g net, .* into Turnings, white lid/)
  })
  await hand.look('turned')
  await day.lastRun(/^Mug, /)
  await hand.go(/^Lost some/)
  await hand.choose('stage', 'leather_hard')
  await hand.words('cause', 'handle came off')
  await hand.choose('vesselId', /Turnings, white lid/)
  await hand.look('lose')
  expect(await hand.press()).toMatch(/Lost: 1 piece \(handle came off\)/)
}

/** The bucket of turnings is weighed with three taps and its digits. */
export async function weighTurnings(day: Day): Promise<void> {
  const { hand } = day
  await day.counts('weigh in turnings', async () => {
    await hand.go(/^Weigh in/)
    await hand.go(/^Turnings, white lid/)
    await hand.digits('gross', '4.40')
    expect(await hand.read()).toContain('Net 4.00 kg')
    await hand.look('weigh-in')
    expect(await hand.press()).toMatch(/Weighed in: 4\.00 kg net/)
  })
  await hand.look('weighed-in')
}
