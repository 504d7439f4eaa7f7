import type { ClayOnBench } from '../../../db/reports/throwing.ts'
import { ballsFrom } from '../../../shared/balls.ts'
import { decimal } from '../../../shared/decimal.ts'
import { gramsFrom, type Mass } from '../../../shared/units.ts'
import { begunWith, fieldsOfMass } from '../begun-with.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField, CountField } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { refuseMissing } from '../missing.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'

/** What stands behind the names of the fields of each clay. */
export const SOURCES = ['', '2', '3'] as const

/** Another clay is mostly none; once one was touched, this is the way back. */
const NONE = { value: '', name: 'None' }

interface SourceProps {
  readonly of: (typeof SOURCES)[number]
  readonly clays: readonly ClayOnBench[]
  readonly usual: {
    readonly lotId?: string | undefined
    readonly balls?: number | undefined
    readonly ballMass?: Mass | undefined
  }
  readonly typed: Typed
  readonly faults: FormFaults | undefined
  readonly voice: Voice
}

/** One clay off the bench, and how much of it: so many balls, all that is left, or a lump that was weighed. */
export function SourceFields({ of, clays, usual, typed, faults, voice }: SourceProps) {
  const field = { typed, faults }
  const { ballMass } = usual
  const begun = begunWith(typed, {
    ...fieldsOfMass(`ballMass${of}`, ballMass, voice.studio.massUnits),
    [`balls${of}`]: usual.balls === undefined ? undefined : String(usual.balls),
  })
  return (
    <div class="clay-source" data-source={of === '' ? '1' : of}>
      <ChoiceField
        {...field}
        name={`lotId${of}`}
        label="Clay"
        usual={of === '' ? usual.lotId : NONE.value}
        choices={[
          ...(of === '' ? [] : [NONE]),
          ...clays.map((clay) => ({
            value: clay.lotId,
            name: clay.label,
            hint: leftWords(clay, ballMass, voice),
          })),
        ]}
      />
      <ChoiceField
        {...field}
        name={`how${of}`}
        label="How much"
        usual="balls"
        choices={[
          { value: 'balls', name: 'Balls' },
          { value: 'left', name: 'All that is left' },
          { value: 'lump', name: 'A lump, weighed' },
        ]}
      />
      <div class="by-balls">
        <CountField faults={faults} typed={begun} name={`balls${of}`} label="How many balls" />
        <MassField
          faults={faults}
          typed={begun}
          voice={voice}
          name={`ballMass${of}`}
          label="One ball weighs"
          unit="g"
        />
      </div>
      <div class="by-lump">
        <MassField {...field} voice={voice} name={`lump${of}`} label="The lump weighs" />
      </div>
    </div>
  )
}

function leftWords(clay: ClayOnBench, ballMass: Mass | undefined, voice: Voice): string {
  const left = `${voice.mass(clay.wetGrams)} left`
  if (ballMass === undefined) return left
  const wetGrams = decimal(clay.wetGrams)
  const balls = ballsFrom({ wetGrams, ballGrams: gramsFrom(ballMass) })
  return `${left}, ${String(balls)} ${balls === 1 ? 'ball' : 'balls'}`
}

/** The clays that were named, as an act is told them. The first one is always meant. */
export function sourcesSaid(typed: Typed, sources: readonly string[] = SOURCES): object[] {
  return sources.flatMap((of) => {
    const lotId = typed.text(`lotId${of}`)
    if (lotId !== undefined) return [{ lotId, ...amountSaid(typed, of) }]
    return of === '' ? refuseMissing('lotId', 'Which clay?') : []
  })
}

function amountSaid(typed: Typed, of: string): object {
  const how = typed.text(`how${of}`) ?? 'balls'
  if (how === 'left') return { whatIsLeft: true }
  if (how === 'lump') {
    return { reading: typed.net(`lump${of}`) ?? refuseMissing(`lump${of}`, 'What does it weigh?') }
  }
  return saidOnly({
    balls: typed.count(`balls${of}`) ?? refuseMissing(`balls${of}`, 'How many balls?'),
    ballMass:
      typed.mass(`ballMass${of}`) ?? refuseMissing(`ballMass${of}`, 'One ball weighs what?'),
  })
}

/** Which field of the form an act speaks of, clay by clay. */
export const FIELDS_OF_SOURCES: Readonly<Record<string, string>> = Object.fromEntries(
  SOURCES.flatMap((of, index) => {
    const pointer = `/from/${String(index)}`
    return [
      [pointer, `lotId${of}`],
      [`${pointer}/balls`, `balls${of}`],
      [`${pointer}/ballMass`, `ballMass${of}`],
      [`${pointer}/reading`, `lump${of}`],
    ]
  }),
)
