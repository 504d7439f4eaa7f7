import { allKept, forget, onKeptChange, type KeptInLine } from './kept-store.ts'
import { link, made, refusedDetails } from './shown-faults.ts'
import { timeWords } from './time-words.ts'

/** Shows what this phone keeps: what waits for a network, and what was refused. */
export function showKept(): void {
  const section = document.querySelector<HTMLElement>('section#kept')
  if (section === null) return
  const status = made('p', '')
  status.setAttribute('role', 'status')
  // Folded away, so that the keys do not move down with each press.
  const waiting = made('details', '')
  const list = made('ul', '')
  waiting.append(made('summary', 'What waits'), list)
  const refused = made('div', '')
  section.append(status, waiting, refused)
  let drawn = ''

  const draw = async () => {
    const all = await allKept()
    const now = all.map((one) => `${one.key} ${String(one.refused !== undefined)}`).join()
    if (now === drawn) return
    drawn = now
    const wait = all.filter((one) => one.refused === undefined)
    const back = all.filter((one) => one.refused !== undefined)
    section.hidden = all.length === 0
    status.textContent = wait.length === 0 ? '' : waitWords(wait)
    list.replaceChildren(...wait.map(waitingLine))
    waiting.hidden = wait.length === 0
    refused.replaceChildren(...back.map(refusedBox))
  }
  // Where nothing can be kept there is nothing to show.
  const redraw = () => void draw().catch(() => undefined)
  onKeptChange(redraw)
  redraw()
}

/** What waits: weigh-ins, or entries where others are among them. */
function waitWords(wait: readonly KeptInLine[]): string {
  const thing = wait.every(isWeighing) ? 'weigh-in' : 'entry'
  if (wait.length === 1) {
    return `1 ${thing} waits on this phone. It goes by itself as soon as there is a network.`
  }
  const things = thing === 'entry' ? 'entries' : 'weigh-ins'
  return `${String(wait.length)} ${things} wait on this phone. They go by themselves as soon as there is a network.`
}

function isWeighing({ action }: KeptInLine): boolean {
  return new URL(action, location.href).pathname.startsWith('/weigh')
}

function lineOf({ keptAt, words }: KeptInLine): string {
  return `${timeWords(keptAt)} ${words}`
}

/** What waits can be put away too: whatever keeps it from going, nobody is stuck with it. */
function waitingLine(one: KeptInLine): HTMLElement {
  const line = made('li', '')
  const words = 'It may not be in the books yet. Put away, it is gone from this phone.'
  line.append(made('span', lineOf(one)), putAway(one, words))
  return line
}

function refusedBox(one: KeptInLine): HTMLElement {
  const box = made('div', '')
  box.className = 'faults'
  box.setAttribute('role', 'alert')
  box.append(made('h2', `Not recorded: ${lineOf(one)}`))
  if (one.refused !== undefined) {
    box.append(made('p', one.refused.title), refusedDetails(one.refused))
  }
  const again = link(addressAgain(one), isWeighing(one) ? 'Weigh it again' : 'Enter it again')
  again.className = 'button'
  const words = 'It is not in the books. Put away, it is gone from this phone too.'
  box.append(again, putAway(one, words))
  return box
}

/** What belongs to the one press, and not to the next. */
const OF_THE_PRESS = ['key', 'seen', 'asked', 'preview']

/** The form's page, with all that was typed in its fields and the moment of the press. */
function addressAgain({ key, action, body }: KeptInLine): string {
  const address = new URL(action, location.href)
  for (const [name, value] of new URLSearchParams(body)) {
    if (!OF_THE_PRESS.includes(name)) address.searchParams.append(name, value)
  }
  address.searchParams.set('keptAs', key)
  return address.pathname + address.search
}

/** Putting it away asks once more. */
function putAway({ key }: KeptInLine, words: string): HTMLElement {
  const details = made('details', '')
  const surely = made('button', 'Yes, put it away')
  surely.type = 'button'
  surely.addEventListener('click', () => {
    forget(key).catch(reportError)
  })
  details.append(made('summary', 'Put it away'), made('p', words), surely)
  return details
}
