import type { Child } from 'hono/jsx'
import type { Caution } from '../../shared/silica.ts'
import type { FormFaults } from './field-words.tsx'
import { FaultSummary, Press, TextField } from './fields.tsx'
import { Keys } from './mass-field.tsx'
import type { Typed } from './typed.ts'

interface ActFormFrame {
  readonly action: string
  /** A key of its own for each form that is shown: two presses of one form are one entry. */
  readonly newKey: string
  readonly keeps: string
  readonly press: string
  readonly by: string | undefined
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly cautions: readonly Caution[]
  /** True where the form came back only to show the cautions, or to ask whether something is right. */
  readonly mustSee: boolean
  /** What would be recorded, where that was tried. */
  readonly estimate: Child
  /** Keys for wet hands, beside the press. */
  readonly keysFor: string | undefined
  /** Fields that are mostly right as they are, below the press. */
  readonly after: Child
  readonly children?: Child
}

/** The form of an act: its fields, what would be recorded, what is dusty, and the press. */
export function ActForm(props: ActFormFrame) {
  const { action, newKey, keeps, press, typed, faults, cautions, mustSee } = props
  // What comes and goes while one types stands below the keys: none may move under a thumb.
  const isBelow = props.keysFor !== undefined && !mustSee
  const wouldBe = (
    <output class="would-be" data-estimate>
      {props.estimate}
    </output>
  )
  return (
    <>
      <FaultSummary faults={faults} />
      <form method="post" action={action} class="act" data-keep={keeps} data-preview>
        <input
          type="hidden"
          name="key"
          value={faults === undefined ? (typed.text('key') ?? newKey) : newKey}
        />
        {cautions.length > 0 ? <input type="hidden" name="seen" value="yes" /> : null}
        <ToldAgain typed={typed} />
        <PressedBefore typed={typed} />
        {mustSee ? <input type="hidden" name="asked" value="yes" /> : null}
        {props.children}
        {isBelow ? null : wouldBe}
        {mustSee ? (
          <p class="ask" role="alert">
            Nothing is recorded yet. Read this, then press again.
          </p>
        ) : null}
        <div data-dust>
          {cautions.map((caution) => (
            <CautionBox caution={caution} />
          ))}
        </div>
        <div class="hand">
          {props.keysFor === undefined ? null : <Keys forName={props.keysFor} />}
          <Press>{press}</Press>
        </div>
        {isBelow ? wouldBe : null}
        {props.after}
        <Circumstances typed={typed} by={props.by} faults={faults} />
      </form>
    </>
  )
}

/** That it is told instead of an entry that was wrong: the two change places together, or neither does. */
function ToldAgain({ typed }: { typed: Typed }) {
  const instead = typed.text('instead')
  if (instead === undefined) return null
  return (
    <>
      <input type="hidden" name="instead" value={instead} />
      <input type="hidden" name="wasAt" value={typed.text('wasAt')} />
      <input type="hidden" name="backAt" value={typed.text('backAt')} />
      <p class="ask">
        This takes the place of <a href={`/books/trail/entry/${instead}`}>what was recorded then</a>
        , at the same moment. Put right what was wrong.
      </p>
    </>
  )
}

/**
 * The moment of an earlier press that was not recorded, and under what the phone keeps that press. It
 * is for one press: the script takes it out when that press is kept.
 */
function PressedBefore({ typed }: { typed: Typed }) {
  const happenedAt = typed.text('happenedAt')
  if (happenedAt === undefined) return null
  return (
    <div data-pressed-before>
      <input type="hidden" name="happenedAt" value={happenedAt} />
      <input type="hidden" name="keptAs" value={typed.text('keptAs') ?? ''} />
      <p>It counts from when it was first pressed, unless another time is put in below.</p>
    </div>
  )
}

/** When, who and why: folded away, because mostly it is now and the one who works at this phone. */
function Circumstances(props: {
  typed: Typed
  by: string | undefined
  faults: FormFaults | undefined
}) {
  const { typed, by, faults } = props
  const isSaid = ['when', 'note'].some((name) => typed.text(name) !== undefined)
  const isFaulty = faults?.all.some(({ field }) => ['when', 'by', 'note'].includes(field ?? ''))
  return (
    <details class="more" open={isSaid || isFaulty === true}>
      <summary>Earlier, by somebody else, or with a note</summary>
      <TextField
        name="when"
        label="When it happened"
        hint="Leave it empty for now. By the studio's clock."
        type="datetime-local"
        typed={typed}
        faults={faults}
      />
      <TextField name="by" label="Who did it" typed={typed} usual={by} faults={faults} />
      <TextField name="note" label="Note" typed={typed} faults={faults} />
    </details>
  )
}

/** What raises dust, what to do instead, and whose limits apply: the first advice at once, the rest folded. */
export function CautionBox({ caution }: { caution: Caution }) {
  const [first, ...others] = caution.instead
  const title = caution.title ?? 'Dust'
  return (
    <section class="caution" aria-label={title}>
      <p>
        <strong>{title}.</strong> {caution.why} {first}
      </p>
      <details>
        <summary>What else to do, and limits</summary>
        <p>{caution.hazard}.</p>
        <ul>
          {others.map((advice) => (
            <li>{advice}</li>
          ))}
        </ul>
        <ul>
          {caution.limits.map((limit) => (
            <li>
              {limit.jurisdiction}, {limit.authority}: {limit.milligramsPerCubicMetre} mg/m³{' '}
              {limit.kind === 'ceiling' ? 'at any moment' : `over ${limit.averagedOver}`}
              {limit.measured === undefined ? '' : `, ${limit.measured}`} ({limit.name};{' '}
              {limit.document}, {limit.asOf})
            </li>
          ))}
        </ul>
        {caution.houseFigure === undefined ? null : <p>{caution.houseFigure.label}</p>}
        <p>{caution.deferTo}</p>
      </details>
    </section>
  )
}
