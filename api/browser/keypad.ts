/** Shows the keys for wet hands and gives them their work; the phone's own keyboard stays away. */
export function showKeypads(): void {
  for (const keypad of document.querySelectorAll<HTMLElement>('.keypad')) {
    const fields = [
      ...(keypad.closest('.field')?.querySelectorAll<HTMLInputElement>('input[data-keypad]') ?? []),
    ]
    const [first] = fields
    if (first !== undefined) showKeypad(keypad, [first, ...fields.slice(1)])
  }
}

function showKeypad(
  keypad: HTMLElement,
  fields: readonly [HTMLInputElement, ...HTMLInputElement[]],
) {
  let [current] = fields
  for (const field of fields) {
    field.inputMode = 'none'
    field.addEventListener('focus', () => {
      current = field
    })
  }
  // The field keeps the focus, and with it its mark that says where the digits go.
  keypad.addEventListener('pointerdown', (event) => event.preventDefault())
  keypad.addEventListener('click', ({ target }) => {
    const key = target instanceof Element ? target.closest<HTMLElement>('[data-key]') : null
    if (key?.dataset['key'] !== undefined) touch(current, key.dataset['key'])
  })
  keypad.hidden = false
}

function touch(field: HTMLInputElement, key: string): void {
  const { value } = field
  if (key === 'back') field.value = value.slice(0, -1)
  else if (key !== '.') field.value = value + key
  else if (!/[.,]/.test(value)) field.value = `${value === '' ? '0' : value}.`
  field.dispatchEvent(new Event('input', { bubbles: true }))
}
