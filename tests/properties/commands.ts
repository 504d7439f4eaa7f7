import type fc from 'fast-check'
import { correctEntry } from '../../db/correct.ts'
import type { Services } from '../../db/perform.ts'
import { Refusal } from '../../shared/refusal.ts'
import { Dice } from '../support/arbitraries.ts'
import type { Answered, Deed, DeedMaker } from './deed.ts'
import { DEEDS_OF_CLAY } from './deeds-of-clay.ts'
import { DEEDS_OF_GLAZE } from './deeds-of-glaze.ts'
import { DEEDS_OF_MATERIALS } from './deeds-of-materials.ts'
import { DEEDS_OF_POTS } from './deeds-of-pots.ts'
import { DEEDS_OF_SCRAP } from './deeds-of-scrap.ts'
import { Reckoning } from './reckoning.ts'
import { moneyFaultsOf } from './money-opinion.ts'
import { faultsOf, fingerprintOf, odditiesOf } from './second-opinion.ts'
import type { Tally } from './tally.ts'
import { viewStudio, type View } from './view.ts'

export const DEEDS: Readonly<Record<string, DeedMaker>> = {
  ...DEEDS_OF_CLAY,
  ...DEEDS_OF_SCRAP,
  ...DEEDS_OF_POTS,
  ...DEEDS_OF_MATERIALS,
  ...DEEDS_OF_GLAZE,
}

/** The real thing: a studio in the database, through the acts of the program. */
export interface Real {
  readonly services: Services
  readonly studioId: string
  readonly tally: Tally
}

/** What is known of it: the simple reckoning, and what the database looked like a moment ago. */
export interface Model {
  readonly reckoning: Reckoning
  view: View
  fingerprint: readonly string[]
  /** False while a studio is only being filled, with what another test has looked at closely. */
  readonly isChecked: boolean
}

export async function modelOf(real: Real, isChecked = true): Promise<Model> {
  const { services, studioId } = real
  return {
    reckoning: new Reckoning(),
    view: await viewStudio(services.db, studioId),
    fingerprint: await fingerprintOf(services.db, studioId),
    isChecked,
  }
}

export type Verdict =
  | { readonly refusal: Refusal; readonly answer: undefined }
  | { readonly refusal: undefined; readonly answer: Awaited<Answered>['answer'] }

/** Does it and says how it went; whatever is neither an answer nor a refusal is a defect, and thrown. */
export async function attempt(what: string, work: () => Answered): Promise<Verdict> {
  try {
    return { answer: (await work()).answer, refusal: undefined }
  } catch (error) {
    if (error instanceof Refusal) return { refusal: error, answer: undefined }
    throw new Error(`${what} => ${causesOf(error)}`, { cause: error })
  }
}

function causesOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error)
  return error.cause === undefined ? error.message : `${error.message} <- ${causesOf(error.cause)}`
}

/** One act, with a model of what must be true after it, accepted or refused. */
export class Doing implements fc.AsyncCommand<Model, Real> {
  readonly kind: string
  readonly faces: readonly number[]
  readonly #make: DeedMaker | undefined
  #told = ''

  constructor(kind: string, faces: readonly number[], make: DeedMaker | undefined = DEEDS[kind]) {
    this.kind = kind
    this.faces = faces
    this.#make = make
  }

  check(): boolean {
    return true
  }

  async run(model: Model, real: Real): Promise<void> {
    const dice = new Dice(this.faces)
    if (this.#make === undefined) await this.#correct(model, real, dice)
    else await this.#do(model, real, this.#make(model.view, dice))
  }

  toString(): string {
    return `${this.kind} ${this.#told}`
  }

  async #do(model: Model, real: Real, deed: Deed): Promise<void> {
    const { services, studioId, tally } = real
    this.#told = JSON.stringify(deed.said)
    const verdict = await attempt(this.toString(), () => deed.perform(services, { studioId }))
    tally.note(this.kind, verdict)
    const wrong =
      verdict.answer === undefined ? [] : model.reckoning.post(verdict.answer.entry, deed.foretold)
    this.#told += tellingOf(verdict)
    await this.#settle(model, real, { verdict, wrong })
  }

  async #correct(model: Model, real: Real, dice: Dice): Promise<void> {
    const { services, studioId, tally } = real
    const latest = model.view.entries.at(-1)?.entryId ?? 'no-entry'
    const any = dice.pickOr(model.view.entries, { entryId: 'no-entry' }).entryId
    const entryId = dice.isOnceIn(2) ? any : latest
    const again = dice.isOnceIn(3)
      ? deedFor(dice.pick(['turn', 'collect_slops', 'rewet', 'weigh_scrap']), model.view, dice)
      : undefined
    this.#told = JSON.stringify({ entryId, again: again?.said })
    const said = { entryId, ...(dice.isOnceIn(4) ? { happenedAt: '2026-06-14T10:00:00Z' } : {}) }
    const verdict = await attempt(this.toString(), () =>
      again === undefined
        ? correctEntry(services, { studioId }, { said })
        : again.insteadOf(services, { studioId }, entryId),
    )
    tally.note(this.kind, verdict)
    this.#told += tellingOf(verdict)
    const wrong: string[] = []
    if (verdict.answer !== undefined) {
      wrong.push(...model.reckoning.takeBack(entryId))
      if (again !== undefined) {
        wrong.push(...model.reckoning.post(verdict.answer.entry, again.foretold))
      }
    }
    await this.#settle(model, real, { verdict, wrong })
    if (verdict.answer !== undefined && model.isChecked) await refuseTwice(model, real, entryId)
  }

  /** All that must hold after a command; a refused one must have left no trace at all. */
  async #settle(model: Model, real: Real, after: { verdict: Verdict; wrong: string[] }) {
    const { services, studioId } = real
    if (!model.isChecked) {
      model.view = await viewStudio(services.db, studioId)
      return complain(this.toString(), after.wrong)
    }
    const fingerprint = await fingerprintOf(services.db, studioId)
    if (after.verdict.refusal !== undefined) {
      complain(this.toString(), [
        ...differing(model.fingerprint, fingerprint),
        ...misnamed(this.kind, after.verdict.refusal),
      ])
      return
    }
    model.fingerprint = fingerprint
    model.view = await viewStudio(services.db, studioId)
    complain(this.toString(), [
      ...after.wrong,
      ...(await faultsOf(services.db, studioId)),
      ...(await moneyFaultsOf(services.db, studioId)),
      ...(await odditiesOf(services.db, studioId)),
      ...(await model.reckoning.differencesTo(services.db, studioId)),
    ])
  }
}

/** What was taken back cannot be taken back again, and asking for it leaves no trace. */
async function refuseTwice(model: Model, real: Real, entryId: string): Promise<void> {
  const { services, studioId } = real
  const second = await attempt(`second reversal of ${entryId}`, () =>
    correctEntry(services, { studioId }, { said: { entryId } }),
  )
  const code = second.refusal?.code
  const trace = differing(model.fingerprint, await fingerprintOf(services.db, studioId))
  const isRefused = code === 'entry_must_not_be_reversed_already'
  complain(`second reversal of ${entryId}`, [
    ...(isRefused ? [] : [`it was answered with ${code ?? 'a reversal'}`]),
    ...trace,
  ])
}

export function deedFor(kind: string, view: View, dice: Dice): Deed {
  const make = DEEDS[kind]
  if (make === undefined) throw new Error(`nobody knows how to ${kind}`)
  return make(view, dice)
}

export function complain(what: string, faults: readonly string[]): void {
  if (faults.length > 0) throw new Error(`${what}\n  ${faults.join('\n  ')}`)
}

export function differing(before: readonly string[], after: readonly string[]): string[] {
  return after.filter((print, at) => print !== before[at]).map((print) => `left a trace: ${print}`)
}

/**
 * Refusals in the wrong mouth. Only who takes something back can be told that it has moved on since;
 * and an act looks at balances that it holds locked, so that the net of the database never has to.
 */
export function misnamed(kind: string, { code }: Refusal): string[] {
  const isOfNet = code === 'holding_must_not_go_negative'
  const isOfCorrections = kind !== 'correct' && /^(reversal|entry)_/.test(code)
  return isOfNet || isOfCorrections ? [`${kind} was refused as ${code}`] : []
}

function tellingOf({ refusal }: Verdict): string {
  return refusal === undefined ? ' => accepted' : ` => ${refusal.code}`
}
