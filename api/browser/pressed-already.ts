import { made } from './shown-faults.ts'

const ID = 'pressed-already'
/** In the browser's own history of this page, so that it is there however one comes back to it. */
const MARK = 'slakebookRecorded'

/** Marks this page as one whose press is recorded. */
export function markRecorded(): void {
  history.replaceState({ [MARK]: true }, '')
}

/** True where one has come back to a page whose press is recorded. */
export function isMarkedRecorded(): boolean {
  const state = history.state as Readonly<Record<string, unknown>> | null
  return state?.[MARK] === true
}

/** Says above a form that what was pressed there is done: who goes back may press once more for nothing. */
export function showPressedAlready(form: HTMLFormElement, done: 'recorded' | 'kept'): void {
  document.getElementById(ID)?.remove()
  const status = made('p', '')
  status.id = ID
  status.className = 'ask'
  status.setAttribute('role', 'status')
  form.before(status)
  status.textContent = `This is ${done} already. Press again only for another.`
}

/** With the next press it is another. */
export function takePressedAlreadyAway(): void {
  document.getElementById(ID)?.remove()
  if (isMarkedRecorded()) history.replaceState(null, '')
}
