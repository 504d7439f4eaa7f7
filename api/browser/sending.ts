import { forget, nextToSend, setAside, type KeptInLine, type Refused } from './kept-store.ts'
import { phoneNow } from './phone-clock.ts'
import { learnServerTime } from './server-time.ts'

/** What became of something that was kept. */
export type Outcome =
  | { readonly kind: 'recorded'; readonly key: string; readonly next: string | undefined }
  | { readonly kind: 'refused'; readonly key: string; readonly refused: Refused }
  | { readonly kind: 'waits' }

const SECOND = 1000
const ANSWER_MILLISECONDS_MAX = 30 * SECOND
const FIRST_PAUSE = 4 * SECOND
const LONGEST_PAUSE = 5 * 60 * SECOND
const LOCK = 'slakebook-sending'

/** Answers that say "not now": the same may be taken later. */
const LATER = [408, 425, 429]
/** The program came to grief over what it was told. */
const OUR_FAULT = 500
const NOTHING = 'Nothing was recorded.'

const listeners: ((outcome: Outcome) => void)[] = []
const otherTabs = 'BroadcastChannel' in globalThis ? new BroadcastChannel(LOCK) : undefined
let isSending = false
let isAskedAgain = false
let pause = FIRST_PAUSE
let timer: ReturnType<typeof setTimeout> | undefined

/** Tells what becomes of what is kept, whichever tab sent it. */
export function onOutcome(listener: (outcome: Outcome) => void): void {
  listeners.push(listener)
}

/** Sends what is kept now, and again whenever it may have become possible. */
export function startSending(): void {
  otherTabs?.addEventListener('message', (event: MessageEvent<Outcome>) => hear(event.data))
  addEventListener('online', () => sendKept())
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') sendKept()
  })
  addEventListener('pageshow', () => sendKept())
  sendKept()
}

/** Sends what is kept, oldest first, one at a time, one tab at a time. */
export function sendKept(): void {
  if (isSending) {
    isAskedAgain = true
    return
  }
  isSending = true
  isAskedAgain = false
  clearTimeout(timer)
  alone(sendAll)
    .catch(() => 'waits' as const)
    .then((end) => {
      isSending = false
      if (end === 'waits') tryLater()
      else if (isAskedAgain) sendKept()
    })
    .catch(reportError)
}

function tryLater(): void {
  tell({ kind: 'waits' })
  timer = setTimeout(sendKept, pause)
  pause = Math.min(2 * pause, LONGEST_PAUSE)
}

/** Over plain HTTP there are no locks: two tabs may then send the same, which is recorded once. */
function alone<T>(work: () => Promise<T>): Promise<T> {
  const { locks } = navigator as { locks?: LockManager }
  return locks === undefined ? work() : (locks.request(LOCK, work) as Promise<T>)
}

async function sendAll(): Promise<'sent' | 'waits'> {
  for (;;) {
    const next = await nextToSend()
    if (next === undefined) return 'sent'
    const outcome = await send(next)
    if (outcome.kind === 'waits') return 'waits'
    pause = FIRST_PAUSE
    if (outcome.kind === 'recorded') await forget(next.key)
    else await setAside(next, outcome.refused)
    tell(outcome)
  }
}

async function send({ key, action, body }: KeptInLine): Promise<Outcome> {
  const askedAt = phoneNow()
  try {
    const answer = await fetch(action, {
      method: 'POST',
      headers: { accept: 'application/json' },
      body: new URLSearchParams(body),
      redirect: 'manual',
      signal: AbortSignal.timeout(ANSWER_MILLISECONDS_MAX),
    })
    learnServerTime(answer, askedAt)
    return await outcomeOf(answer, key)
  } catch {
    return { kind: 'waits' }
  }
}

/**
 * Only the program itself says that something is recorded or refused. The page with which a café's
 * network greets, and the error of a machine in between, are neither.
 */
async function outcomeOf(answer: Response, key: string): Promise<Outcome> {
  const type = answer.headers.get('content-type') ?? ''
  if (answer.ok && type.startsWith('application/json')) {
    return { kind: 'recorded', key, next: answer.headers.get('slakebook-next') ?? undefined }
  }
  const { status } = answer
  const isRefusal = status >= 400 && status <= OUR_FAULT && !LATER.includes(status)
  if (!isRefusal || !type.startsWith('application/problem+json')) return { kind: 'waits' }
  const refused = refusedOf((await answer.json()) as Problem)
  return { kind: 'refused', key, refused: status === OUR_FAULT ? ofOurFault(refused) : refused }
}

/**
 * A fault of the program itself may come again each time, and what was pressed later would never go.
 * Its page of what to do speaks to programs.
 */
function ofOurFault({ title, details }: Refused): Refused {
  const isSaid = details.some((detail) => detail.endsWith(NOTHING))
  return { title, details: isSaid ? details : [...details, NOTHING], more: undefined }
}

interface Problem {
  readonly type?: string
  readonly title?: string
  readonly detail?: string
  readonly errors?: readonly { readonly detail?: string }[]
}

function refusedOf({ type, title, detail, errors = [] }: Problem): Refused {
  // Where single fields are at fault, the general words speak of a request, which nobody here made.
  const isOfFields = errors.length > 0
  const details = isOfFields ? errors.map((error) => error.detail) : [detail]
  return {
    title: isOfFields ? 'Something is missing or not right' : (title ?? 'It was not recorded'),
    details: [...new Set(details.filter((one) => one !== undefined))],
    more: type?.startsWith('/problems/') === true ? type : undefined,
  }
}

function tell(outcome: Outcome): void {
  otherTabs?.postMessage(outcome)
  hear(outcome)
}

function hear(outcome: Outcome): void {
  for (const listener of listeners) listener(outcome)
}
