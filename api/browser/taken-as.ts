/** Keeps the words of what a weigh-in is taken as beside what is chosen below. */
export function showTakenAs(): void {
  for (const words of document.querySelectorAll<HTMLElement>('[data-taken-as]')) {
    const form = words.closest('form')
    const atFirst = words.textContent
    form?.addEventListener('input', () => {
      words.textContent = chosenWords(form) ?? atFirst
    })
    form?.addEventListener('reset', () => {
      words.textContent = atFirst
    })
  }
}

/** Of a choice that tells its water: its name and its hint, where it is not the one chosen at first. */
function chosenWords(form: HTMLFormElement): string | undefined {
  const chosen = form.querySelector<HTMLInputElement>('input[data-water]:checked')
  const words = chosen?.nextElementSibling
  if (chosen === null || chosen.defaultChecked) return undefined
  const hint = words?.querySelector('small')?.textContent ?? ''
  const name = words?.firstChild?.textContent?.trim().toLowerCase() ?? ''
  return `Taken as ${[name, hint].filter((part) => part !== '').join(': ')}. Change it below.`
}
