/** Shows the keys for wet hands and gives them their work; the phone's own keyboard stays away. */
export function showKeypads(): void {
  for (const keypad of document.querySelectorAll<HTMLElement>('.keypad')) {
    const fields = fieldsOf(keypad)
    const [first] = fields
    if (first !== undefined) showKeypad(keypad, [first, ...fields.slice(1)])
  }
}

/** The field that the keys name, or its pounds and its ounces. */
function fieldsOf(keypad: HTMLElement): HTMLInputElement[] {
  const name = keypad.dataset['for']?.replace(/Pounds$/, '') ?? ''
  const names = [name, `${name}Pounds`, `${name}Ounces`]
  const all = keypad.closest('form')?.querySelectorAll<HTMLInputElement>('input[data-keypad]') ?? []
  return [...all].filter((field) => names.includes(field.name))
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
