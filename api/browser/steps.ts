/** Shows one less and one more beside a count, and gives them their work. */
export function showSteps(): void {
  for (const steps of document.querySelectorAll<HTMLElement>('[data-steps]')) {
    const field = steps.querySelector('input')
    if (field === null) continue
    for (const button of steps.querySelectorAll<HTMLButtonElement>('[data-step]')) {
      button.hidden = false
      button.addEventListener('click', () => step(field, Number(button.dataset['step'])))
    }
  }
}

/** A count goes from nothing up; what is no number yet counts as nothing. */
function step(field: HTMLInputElement, by: number): void {
  const count = /^\d+$/.test(field.value.trim()) ? Number(field.value) : 0
  field.value = String(Math.max(0, count + by))
  field.dispatchEvent(new Event('input', { bubbles: true }))
}
