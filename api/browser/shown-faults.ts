import type { Refused } from './kept-store.ts'

const ID = 'faults'

/** Puts what was refused above its form, as the server's own page does, and takes earlier words away. */
export function showFaults(form: HTMLFormElement, refused: Refused | undefined): void {
  document.getElementById(ID)?.remove()
  if (refused === undefined) return
  const box = document.createElement('div')
  box.id = ID
  box.className = 'faults'
  box.setAttribute('role', 'alert')
  box.tabIndex = -1
  box.append(made('h2', refused.title), refusedDetails(refused))
  form.before(box)
  box.focus()
}

/** What was wrong, one by one, with the way to what to do. */
export function refusedDetails({ details, more }: Refused): HTMLElement {
  const list = document.createElement('ul')
  list.append(...details.map((detail) => made('li', detail)))
  if (more !== undefined) {
    const item = document.createElement('li')
    item.append(link(more, 'What to do'))
    list.append(item)
  }
  return list
}

/** An element with words in it. */
export function made<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  words: string,
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name)
  element.textContent = words
  return element
}

/** A way to somewhere else. */
export function link(address: string, words: string): HTMLAnchorElement {
  const way = made('a', words)
  way.href = address
  return way
}
