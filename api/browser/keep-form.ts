import { forget, keep, type Refused } from './kept-store.ts'
import { newKey } from './new-key.ts'
import { phoneNow } from './phone-clock.ts'
import {
  isMarkedRecorded,
  markRecorded,
  showPressedAlready,
  takePressedAlreadyAway,
} from './pressed-already.ts'
import { onOutcome, sendKept, type Outcome } from './sending.ts'
import { momentToSay } from './server-time.ts'
import { showFaults } from './shown-faults.ts'
import { typedWords } from './typed-words.ts'

/** Whoever waits longer than this for an answer goes on working. */
const WAIT_MILLISECONDS_MAX = 4000
/** A page that does not come after this long will not come. */
const LEAVE_MILLISECONDS_MAX = 10_000
/** A second press within this time, with nothing typed between, is the first press's echo. */
const ECHO_MILLISECONDS = 1000

/** The press whose outcome the form waits for. */
interface Press {
  readonly form: HTMLFormElement
  readonly key: string
  /** The key of the refused press that this one is instead of. */
  readonly keptAs: string | undefined
  /** True where the form went as it goes without a script. */
  isOrdinary: boolean
}

let press: Press | undefined
let echo: { readonly form: HTMLFormElement; readonly until: number } | undefined

/** Takes over the press of forms that may be kept: to the phone's storage first, then to the server. */
export function keepForms(): void {
  document.addEventListener('submit', (event) => {
    const form = event.target
    if (!(form instanceof HTMLFormElement) || form.dataset['keep'] === undefined) return
    event.preventDefault()
    if (isEcho(form)) return
    pressed(form, event.submitter).catch(reportError)
  })
  document.addEventListener('input', ({ target }) => {
    if (target instanceof Element && target.closest('form') === echo?.form) echo = undefined
  })
  addEventListener('pageshow', cameBack)
  onOutcome(answered)
}

/**
 * Coming back to a page that a press had left: what was typed there is recorded already, or waits. The
 * browser may have kept the page as it was, or shows it anew with what was typed.
 */
function cameBack(): void {
  const left = press
  letGo()
  const form = left?.form ?? document.querySelector<HTMLFormElement>('form[data-keep]')
  if (form === null || left?.isOrdinary === true) return
  const isRecorded = isMarkedRecorded()
  if (left === undefined && !isRecorded) return
  empty(form)
  showPressedAlready(form, isRecorded ? 'recorded' : 'kept')
}

function isEcho(form: HTMLFormElement): boolean {
  if (press !== undefined) return true
  return echo?.form === form && phoneNow() < echo.until
}

async function pressed(form: HTMLFormElement, submitter: HTMLElement | null): Promise<void> {
  const key = newKey()
  const keptAs = keptAsField(form)?.value || undefined
  press = { form, key, keptAs, isOrdinary: false }
  form.setAttribute('aria-busy', 'true')
  takePressedAlreadyAway()
  showFaults(form, undefined)
  const body = bodyOf(form, { key, submitter })
  const words = [form.dataset['keep'], typedWords(form)].join(' ').trim()
  try {
    await keep({ key, action: actionOf(form), body, words, keptAt: phoneNow() })
  } catch {
    // Without a storage it goes as it would without a script, under the key that the form came with.
    press.isOrdinary = true
    form.submit()
    return
  }
  if (keptAs !== undefined) forget(keptAs).catch(reportError)
  moveOnAfter(WAIT_MILLISECONDS_MAX, key)
  sendKept()
}

/** The form's address, and the studio whose books it is for: another may be chosen before it goes. */
function actionOf(form: HTMLFormElement): string {
  const action = new URL(form.action)
  const { studio } = document.documentElement.dataset
  if (studio !== undefined) action.searchParams.set('studio', studio)
  return action.pathname + action.search
}

/** What the form says, with a key of its own and the time of the press. */
function bodyOf(
  form: HTMLFormElement,
  { key, submitter }: { key: string; submitter: HTMLElement | null },
): string {
  const body = new URLSearchParams()
  for (const [name, value] of new FormData(form, submitter)) {
    if (typeof value === 'string') body.append(name, value)
  }
  body.set('key', key)
  if (form.querySelector('[data-dust] > *') !== null) body.set('seen', 'yes')
  body.delete('keptAs')
  if (isEmpty(body, 'when') && isEmpty(body, 'happenedAt')) body.set('happenedAt', momentToSay())
  return body.toString()
}

function isEmpty(body: URLSearchParams, name: string): boolean {
  return (body.get(name) ?? '') === ''
}

function keptAsField(form: HTMLFormElement): HTMLInputElement | null {
  return form.querySelector('input[name="keptAs"]')
}

function answered(outcome: Outcome): void {
  if (press === undefined || press.isOrdinary) return
  if (outcome.kind === 'waits') moveOn()
  else if (outcome.key !== press.key) return
  else if (outcome.kind === 'refused') refused(press, outcome.refused)
  else {
    moveOnAfter(LEAVE_MILLISECONDS_MAX, outcome.key)
    markRecorded()
    location.assign(outcome.next ?? press.form.action)
  }
}

/**
 * What was pressed just now is still in its fields, so the words come to it and nothing is set aside.
 * What was set aside once already stays so, until it is recorded or put away.
 */
function refused({ form, key, keptAs }: Press, refusal: Refused): void {
  letGo()
  showFaults(form, refusal)
  const field = keptAsField(form)
  if (keptAs !== undefined && field !== null) field.value = key
  else forget(key).catch(reportError)
}

function moveOnAfter(milliseconds: number, key: string): void {
  setTimeout(() => {
    if (press?.key === key) moveOn()
  }, milliseconds)
}

/** It is kept and goes by itself: the form is free for the next. */
function moveOn(): void {
  if (press === undefined) return
  const { form } = press
  letGo()
  empty(form)
  echo = { form, until: phoneNow() + ECHO_MILLISECONDS }
}

/** Free for the next, which happens at a time of its own. */
function empty(form: HTMLFormElement): void {
  form.querySelector('[data-pressed-before]')?.remove()
  form.reset()
}

function letGo(): void {
  press?.form.removeAttribute('aria-busy')
  press = undefined
}
