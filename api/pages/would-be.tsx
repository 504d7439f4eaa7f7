import type { ActAnswer } from '../../db/perform.ts'
import { CautionBox } from './act-form.tsx'
import { FireTold, LossesTold } from './fire-told.tsx'
import type { FormFaults } from './field-words.tsx'
import { dryNameOf } from './material-words.ts'
import type { Voice } from './voice.ts'

type WouldBeProps =
  | { readonly faults: FormFaults }
  | {
      readonly answer: ActAnswer
      readonly voice: Voice
      readonly remarks: readonly string[]
      readonly isCautioned?: boolean
    }

/** What a press would record, while it is typed: masses, how sure, what differs, and what is dusty. */
export function WouldBe(props: WouldBeProps) {
  if ('faults' in props) {
    return (
      <ul class="not-yet">
        {props.faults.all.map(({ detail }) => (
          <li>{detail}</li>
        ))}
      </ul>
    )
  }
  const { answer, voice, remarks, isCautioned = false } = props
  return (
    <>
      {remarks.map((remark) => (
        <p class="remark">{remark}</p>
      ))}
      <dl class="figures">
        {answer.entry.estimates.map((estimate) => (
          <Estimated
            estimate={estimate}
            dryName={dryNameOf(answer.entry, estimate.holdingId)}
            voice={voice}
          />
        ))}
      </dl>
      {answer.differences.map(({ words }) => (
        <p>{voice.words(words)}</p>
      ))}
      <MadeTold made={answer.made} voice={voice} />
      {answer.entry.firing === null ? null : (
        <FireTold firing={answer.entry.firing} voice={voice} />
      )}
      <LossesTold losses={answer.entry.losses} voice={voice} />
      {wordsMade(answer.made['words']).map((words) => (
        <p>{voice.words(words)}</p>
      ))}
      {isCautioned ? null : answer.cautions.map((caution) => <CautionBox caution={caution} />)}
    </>
  )
}

/** How what a fire took is known, by what it is shared out, and what becomes of pots that broke in it. */
function MadeTold({ made, voice }: { made: ActAnswer['made']; voice: Voice }) {
  const told = ['energy', 'sharedOut', 'lossWords'].flatMap((name) => made[name] ?? [])
  return (
    <>
      {told.map((words) => (
        <p>{voice.words(words)}</p>
      ))}
    </>
  )
}

/** What the act says of what it made, in one sentence or in several. */
function wordsMade(words: unknown): string[] {
  const all: unknown[] = Array.isArray(words) ? words : [words]
  return all.filter((one) => typeof one === 'string')
}

const STANDING_WORDS: Readonly<Record<string, string>> = {
  measured: 'measured',
  estimated: 'from what was weighed here',
  stated: 'as said',
  assumed: 'assumed: nobody has tested it',
}

interface EstimatedProps {
  readonly estimate: ActAnswer['entry']['estimates'][number]
  readonly dryName: string
  readonly voice: Voice
}

function Estimated({ estimate, dryName, voice }: EstimatedProps) {
  const { dryGrams, waterGrams, standardUncertaintyGrams, standing } = estimate
  return (
    <>
      <div>
        <dt>{dryName}</dt>
        <dd>{voice.massSure(dryGrams, standardUncertaintyGrams)}</dd>
      </div>
      <div>
        <dt>Water</dt>
        <dd>
          {voice.mass(waterGrams)}
          <small>{STANDING_WORDS[standing] ?? standing}</small>
        </dd>
      </div>
    </>
  )
}
