import { phoneNow } from './phone-clock.ts'
import { learnServerTime } from './server-time.ts'

/** So long nothing is typed before the server is asked. */
const REST_MILLISECONDS = 300

/** Shows below a form what its press would record, while it is typed. */
export function showPreviews(): void {
  for (const form of document.querySelectorAll<HTMLFormElement>('form[data-preview]')) {
    const output = form.querySelector<HTMLElement>('output[data-estimate]')
    if (output !== null) showPreview(form, output)
  }
}

function showPreview(form: HTMLFormElement, output: HTMLElement): void {
  const element = form.querySelector('[data-dust]')
  const place = element === null ? undefined : { element, usual: [...element.children] }
  let timer: ReturnType<typeof setTimeout> | undefined
  let asked = new AbortController()
  const ask = (isTouched: boolean) => {
    clearTimeout(timer)
    asked.abort()
    asked = new AbortController()
    const { signal } = asked
    timer = setTimeout(
      () => void preview(form, output, { signal, isTouched, place }),
      REST_MILLISECONDS,
    )
  }
  form.addEventListener('input', () => ask(true))
  form.addEventListener('reset', () => {
    clearTimeout(timer)
    asked.abort()
    output.replaceChildren()
  })
  // What needs no typing is shown at once, and with it what raises dust.
  if (output.childElementCount === 0 && form.checkValidity() && !hasOpenDigits(form)) ask(false)
}

/** True where digits are still to be typed: what is in a fold may stay empty. */
function hasOpenDigits(form: HTMLFormElement): boolean {
  const digits = form.querySelectorAll<HTMLInputElement>(
    ':is([data-keypad], [inputmode="decimal"], [inputmode="numeric"])',
  )
  return [...digits].some((field) => field.value === '' && field.closest('details') === null)
}

/** Where the cautions of a form stand, and those that it had from the first. */
interface DustPlace {
  readonly element: Element
  readonly usual: readonly Element[]
}

interface Asking {
  readonly signal: AbortSignal
  /** Whether anything was typed or chosen yet. */
  readonly isTouched: boolean
  readonly place: DustPlace | undefined
}

async function preview(
  form: HTMLFormElement,
  output: HTMLElement,
  { signal, isTouched, place }: Asking,
): Promise<void> {
  const body = new URLSearchParams()
  for (const [name, value] of new FormData(form)) {
    if (typeof value === 'string') body.append(name, value)
  }
  body.set('preview', 'true')
  const fragment = await asked(form.action, { body, signal })
  if (signal.aborted) return
  // Without the server the figures of earlier digits would be wrong; the cautions stay in their place.
  if (fragment === undefined) output.replaceChildren()
  // Nobody who has touched nothing yet needs to hear what is missing.
  else if (isTouched || !fragment.includes('class="not-yet"')) {
    output.innerHTML = fragment
    showCautions(output, place)
  }
}

/** What raises dust stands in its own place before the press, and is said once. */
function showCautions(output: HTMLElement, place: DustPlace | undefined): void {
  if (place === undefined || output.querySelector('.not-yet') !== null) return
  const cautions = [...output.querySelectorAll('.caution')]
  place.element.replaceChildren(...(cautions.length > 0 ? cautions : place.usual))
}

async function asked(
  action: string,
  { body, signal }: { body: URLSearchParams; signal: AbortSignal },
): Promise<string | undefined> {
  const askedAt = phoneNow()
  try {
    const answer = await fetch(action, { method: 'POST', body, signal, redirect: 'manual' })
    learnServerTime(answer, askedAt)
    const isHtml = answer.headers.get('content-type')?.startsWith('text/html') === true
    const text = isHtml ? await answer.text() : '<html'
    // A whole page is not the answer: somebody else's, or an error.
    return text.includes('<html') ? undefined : text
  } catch {
    return undefined
  }
}
