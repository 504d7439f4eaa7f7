import {
  cutMarks,
  LABEL_GRIDS,
  LABEL_SIZES,
  MARK_MARGIN_MILLIMETRES,
  sheetsOf,
  type LabelSize,
} from '../../../../shared/label-sheet.ts'
import { newRouter } from '../../../router.ts'
import { QrCode } from '../../drawings/qr-code.tsx'
import { ChoiceField } from '../../fields.tsx'
import { show } from '../../show.tsx'
import { Typed } from '../../typed.ts'
import type { Voice } from '../../voice.ts'
import { isOnlyHere, labelsOf, type Label } from './labels-of.ts'

const TITLE = 'Labels for buckets and bats'

/** Digits of a kilogram: a tare is known to the gram. */
const TO_THE_GRAM = 3

/** Labels to print, each with the way to its page. */
export const labels = newRouter()

labels.get('/books/labels', async (c) => {
  const all = await labelsOf(c)
  const typed = new Typed(new URL(c.req.url).searchParams)
  const size = LABEL_SIZES.find((one) => one === typed.text('size')) ?? 'middle'
  const said = typed.all('which')
  const chosen = said.length === 0 ? all : all.filter(({ which }) => said.includes(which))
  return show(
    c,
    { title: TITLE, here: 'books' },
    <>
      <div class="off-paper">
        <h1>{TITLE}</h1>
        <Reach all={all} />
        <Chooser all={all} chosen={chosen} typed={typed} size={size} />
      </div>
      {sheetsOf(chosen, size).map((some, sheet) => (
        <Sheet some={some} size={size} number={sheet + 1} voice={c.get('voice')} />
      ))}
    </>,
  )
})

function Reach({ all }: { all: readonly Label[] }) {
  const [first] = all
  if (first === undefined) {
    return (
      <p class="ask">
        There are no vessels and no bats here yet.{' '}
        <a href="/books/things/vessels">Enter them first.</a>
      </p>
    )
  }
  const { host } = new URL(first.address)
  if (!isOnlyHere(first.address)) {
    return <p>A phone that reads a label opens {host}. Print them again if that ever changes.</p>
  }
  return (
    <p class="ask">
      <strong>A phone cannot reach these.</strong> This page was opened as {host}, which means this
      machine only. Open it by the address that the phones use, and print the labels from there.
    </p>
  )
}

const SIZE_NAMES: Readonly<Record<LabelSize, string>> = {
  small: 'Small',
  middle: 'Middling',
  large: 'Large',
}

function Chooser(props: {
  all: readonly Label[]
  chosen: readonly Label[]
  typed: Typed
  size: LabelSize
}) {
  const { all, chosen, typed, size } = props
  const marked = new URLSearchParams(chosen.map(({ which }): [string, string] => ['which', which]))
  return (
    <form method="get" action="/books/labels">
      <ChoiceField
        name="size"
        label="How large"
        typed={typed}
        usual={size}
        choices={LABEL_SIZES.map((one) => ({
          value: one,
          name: SIZE_NAMES[one],
          hint: hintOf(one),
        }))}
      />
      <ChoiceField
        name="which"
        label="Which"
        isMany
        typed={new Typed(marked)}
        choices={all.map(({ which, name }) => ({ value: which, name }))}
      />
      <button class="press">Lay them out</button>
      <p>
        Then print this page on plain paper, A4 or Letter, and cut along the marks. Put a clear film
        or wide tape over them: they get wet.
      </p>
    </form>
  )
}

function hintOf(size: LabelSize): string {
  const { widthMillimetres, heightMillimetres, across, down } = LABEL_GRIDS[size]
  return `${String(widthMillimetres)} × ${String(heightMillimetres)} mm, ${String(across * down)} a sheet`
}

function Sheet(props: { some: readonly Label[]; size: LabelSize; number: number; voice: Voice }) {
  const { some, size, number, voice } = props
  return (
    <div class="scroll" role="region" aria-label={`Sheet ${String(number)}`} tabindex={0}>
      <section class={`label-sheet ${size}`}>
        <Marks size={size} />
        <ul>
          {some.map((label) => (
            <LabelDrawn label={label} voice={voice} />
          ))}
        </ul>
      </section>
    </div>
  )
}

function Marks({ size }: { size: LabelSize }) {
  const { widthMillimetres, heightMillimetres, across, down } = LABEL_GRIDS[size]
  const width = across * widthMillimetres + 2 * MARK_MARGIN_MILLIMETRES
  const height = down * heightMillimetres + 2 * MARK_MARGIN_MILLIMETRES
  return (
    <svg class="cut-marks" viewBox={`0 0 ${String(width)} ${String(height)}`} aria-hidden="true">
      {cutMarks(size).map(({ x1, y1, x2, y2 }) => (
        <line x1={x1} y1={y1} x2={x2} y2={y2} />
      ))}
    </svg>
  )
}

function LabelDrawn({ label, voice }: { label: Label; voice: Voice }) {
  const { name, address, which } = label
  return (
    <li class="label" data-which={which}>
      <QrCode text={address} name={`The way to weigh ${name}`} />
      <div>
        <strong>{name}</strong>
        <Mass label={label} voice={voice} />
        <small>{address.replace(/^https?:\/\//, '')}</small>
      </div>
    </li>
  )
}

/** What it weighs empty or dry, and on which day that became known. */
function Mass({ label, voice }: { label: Label; voice: Voice }) {
  const { thing, grams, since } = label
  const state = thing === 'vessel' ? 'Empty' : 'Dry'
  if (grams === null) return <span class="mass">{state}: not weighed yet</span>
  return (
    <>
      <span class="mass">
        {state} {voice.mass(grams, TO_THE_GRAM)}
      </span>
      {since === undefined ? null : <span>{voice.day(since)}</span>}
    </>
  )
}
