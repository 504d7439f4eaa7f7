/** What was typed into a form, as a person would read it back: "12.46 kg", "6 pieces". */
export function typedWords(form: HTMLFormElement): string {
  const digits = [...form.elements].filter(
    (field): field is HTMLInputElement =>
      field instanceof HTMLInputElement && isOfDigits(field) && field.value.trim() !== '',
  )
  return digits
    .map((field) => [field.value.trim(), unitOf(form, field)].join(' ').trim())
    .join(', ')
}

function isOfDigits({ inputMode, dataset, type }: HTMLInputElement): boolean {
  if (['hidden', 'radio', 'checkbox'].includes(type)) return false
  return 'keypad' in dataset || ['decimal', 'numeric'].includes(inputMode)
}

function unitOf(form: HTMLFormElement, field: HTMLInputElement): string {
  if (field.name.endsWith('Pounds')) return 'lb'
  if (field.name.endsWith('Ounces')) return 'oz'
  const chosen = new FormData(form).get(`${field.name}Unit`)
  if (typeof chosen === 'string') return chosen
  return field.parentElement?.querySelector('.unit')?.textContent.trim() ?? ''
}
