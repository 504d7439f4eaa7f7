import type { EntryView, EstimateView, WeighingView } from '../../../../db/entry-shown.ts'
import type { NameOf } from '../../../../db/reports/names.ts'
import { dryNameOf } from '../../material-words.ts'
import type { Voice } from '../../voice.ts'
import { METHOD_WORDS, PURPOSE_WORDS, STANDING_WORDS } from './reading-words.ts'

interface EntryReadingsProps {
  readonly entry: Pick<EntryView, 'kind' | 'lines'> & {
    readonly weighings: readonly WeighingView[]
    readonly estimates: readonly EstimateView[]
  }
  readonly voice: Voice
  readonly nameOf: NameOf
}

/** What the scale read, and what that was taken to mean. */
export function EntryReadings({ entry, voice, nameOf }: EntryReadingsProps) {
  const { weighings, estimates } = entry
  return (
    <>
      {weighings.length === 0 ? null : <h2>What was read</h2>}
      {weighings.map((weighing) => (
        <Weighed weighing={weighing} kindOfEntry={entry.kind} voice={voice} nameOf={nameOf} />
      ))}
      {estimates.length === 0 ? null : <h2>What it was taken to mean</h2>}
      {estimates.map((estimate) => (
        <Meant
          estimate={estimate}
          dryName={dryNameOf(entry, estimate.holdingId)}
          voice={voice}
          nameOf={nameOf}
        />
      ))}
    </>
  )
}

interface WeighedProps {
  readonly weighing: WeighingView
  readonly kindOfEntry: string
  readonly voice: Voice
  readonly nameOf: NameOf
}

function Weighed({ weighing, kindOfEntry, voice, nameOf }: WeighedProps) {
  const { grossGrams, tareGrams, netGrams, vesselId, scaleId, kind, purpose } = weighing
  const hasTare = tareGrams !== '0'
  const about = [
    isOfGlaze(kindOfEntry, kind) ? 'Glaze' : purposeWords(kind, purpose),
    scaleId === null ? '' : `on ${nameOf('scale', scaleId)}`,
    vesselId === null ? '' : `in ${nameOf('vessel', vesselId)}`,
  ]
  return (
    <section class="read">
      <p>{voice.words(about.filter((words) => words !== '').join(', '))}</p>
      <dl class="figures">
        {hasTare ? <Figure name="Gross" value={voice.mass(grossGrams)} /> : null}
        {hasTare ? <Figure name="Tare" value={voice.mass(tareGrams)} /> : null}
        <Figure
          name="Net"
          value={voice.massSure(netGrams, weighing.standardUncertaintyGrams)}
          isNet
        />
      </dl>
    </section>
  )
}

/** What stands on the scale when glaze is told of is a bucket of it, or drawn off it. */
function isOfGlaze(kindOfEntry: string, kind: string): boolean {
  return kind === 'clay' && ['read_glaze', 'water_glaze', 'lose_glaze'].includes(kindOfEntry)
}

function purposeWords(kind: string, purpose: string): string {
  return PURPOSE_WORDS[kind] ?? purpose.replaceAll('_', ' ')
}

function Meant(props: { estimate: EstimateView; dryName: string; voice: Voice; nameOf: NameOf }) {
  const { estimate, dryName, voice, nameOf } = props
  const { dryGrams, waterGrams, standardUncertaintyGrams, method, standing, holdingId } = estimate
  return (
    <section class="read">
      <p>
        {nameOf('holding', holdingId)}: {voice.words(METHOD_WORDS[method] ?? method)}
      </p>
      <dl class="figures">
        <Figure
          name={dryName}
          value={voice.massSure(dryGrams, standardUncertaintyGrams)}
          hint={STANDING_WORDS[standing]}
          isNet
        />
        <Figure name="Water" value={voice.mass(waterGrams)} />
      </dl>
    </section>
  )
}

interface FigureProps {
  readonly name: string
  readonly value: string
  readonly hint?: string | undefined
  readonly isNet?: boolean
}

function Figure({ name, value, hint, isNet }: FigureProps) {
  return (
    <div class={isNet === true ? 'net' : undefined}>
      <dt>{name}</dt>
      <dd>
        {value}
        {hint === undefined ? null : <small>{hint}</small>}
      </dd>
    </div>
  )
}
