/** How many there are of each kind of thing that a studio enters first. */
export interface Entered {
  readonly clays: number
  readonly forms: number
  readonly buckets: number
  readonly scales: number
}

const STEPS: readonly {
  readonly kind: keyof Entered
  readonly href: string
  readonly words: string
  readonly why: string
}[] = [
  {
    kind: 'clays',
    href: '/books/things/bodies',
    words: 'Enter a clay',
    why: 'What you buy, and what the fire takes of it.',
  },
  {
    kind: 'forms',
    href: '/books/things/forms',
    words: 'Enter a form',
    why: 'A mug, a plate: what you throw again.',
  },
  {
    kind: 'buckets',
    href: '/books/things/vessels',
    words: 'Enter a bucket',
    why: 'With what it weighs empty.',
  },
  {
    kind: 'scales',
    href: '/books/things/scales',
    words: 'Enter a scale',
    why: 'With its smallest step and what it carries.',
  },
]

/** What to enter first. All of it can wait. */
export function NextSteps({ entered }: { entered: Entered }) {
  return (
    <>
      <ol class="targets">
        {STEPS.map(({ kind, href, words, why }) => (
          <li>
            <a class="target" href={entered[kind] === 0 ? `${href}/new` : href}>
              <strong>{words}</strong>
              <span>{entered[kind] === 0 ? why : `✓ ${String(entered[kind])} entered`}</span>
            </a>
          </li>
        ))}
      </ol>
      <p>All of this can wait, and grow as you work.</p>
      <p>
        <a class="button" href="/">
          Go to Today
        </a>
      </p>
    </>
  )
}
