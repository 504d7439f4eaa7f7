import type { Context } from 'hono'
import type { Environment } from '../../services.ts'
import type { FormFaults } from '../field-words.tsx'
import { ChoiceField, CountField, type Choice } from '../fields.tsx'
import { MassField } from '../mass-field.tsx'
import { allForms, allMaterials, type Material } from '../things.ts'
import { saidOnly, type Typed } from '../typed.ts'
import type { Voice } from '../voice.ts'

/** What there is to pack in, and what the form usually goes in. */
export interface Packing {
  readonly boxes: readonly Material[]
  /** In words; none where nobody said. */
  readonly usual: string | undefined
}

export async function packingOf(c: Context<Environment>, formId: string): Promise<Packing> {
  const boxes = (await allMaterials(c)).filter(({ kind }) => kind === 'packaging')
  const parts = (await allForms(c)).find((form) => form.formId === formId)?.packing ?? []
  const usual = parts.map(({ materialId, perPiece }) => {
    const box = boxes.find((one) => one.materialId === materialId)
    const amount = box?.keptBy === 'mass' ? c.get('voice').mass(perPiece) : perPiece
    return `${amount} ${box?.name ?? materialId}`
  })
  return { boxes, usual: usual.length === 0 ? undefined : `each in ${usual.join(', ')}` }
}

interface PackedProps {
  readonly packing: Packing
  readonly typed: Typed
  readonly voice: Voice
  readonly faults: FormFaults | undefined
}

/** What they were packed in: as usual, or so many of these; nothing where the studio keeps no packaging. */
export function Packed({ packing, typed, voice, faults }: PackedProps) {
  const { boxes, usual } = packing
  if (boxes.length === 0) return null
  const field = { typed, faults }
  // What is told again is packed as it was told then.
  const isMended = typed.text('instead') !== undefined
  const asUsual: Choice[] =
    usual === undefined ? [] : [{ value: 'as_usual', name: 'As usual', hint: usual }]
  return (
    <div class="ways">
      <ChoiceField
        {...field}
        name="packing"
        label="Packed"
        hint="It leaves the shelf with its cost."
        usual={usual === undefined || isMended ? '' : 'as_usual'}
        choices={[
          ...asUsual,
          { value: 'boxes', name: 'In these', hint: 'say how many' },
          { value: '', name: 'Not told' },
        ]}
      />
      <div class="way way-boxes">
        {boxes.map(({ materialId, name, keptBy }) =>
          keptBy === 'count' ? (
            <CountField {...field} name={`box-${materialId}`} label={name} />
          ) : (
            <MassField {...field} voice={voice} name={`box-${materialId}`} label={name} unit="g" />
          ),
        )}
      </div>
    </div>
  )
}

/** What it was packed in, as the act is told it; nothing where nobody said. */
export function packingSaid(typed: Typed, { boxes }: Packing) {
  const how = typed.text('packing')
  if (how === 'as_usual') return 'as_usual'
  if (how !== 'boxes') return undefined
  return boxesSaid(typed, boxes)
}

function boxesSaid(typed: Typed, boxes: readonly Material[]) {
  return boxes.flatMap(({ materialId, keptBy }) => {
    const name = `box-${materialId}`
    const isCounted = keptBy === 'count'
    const said = {
      pieces: isCounted ? typed.count(name) : undefined,
      mass: isCounted ? undefined : typed.mass(name),
    }
    if (said.pieces === undefined && said.mass === undefined) return []
    return [saidOnly({ materialId, ...said })]
  })
}
