import { VOLUME_UNITS } from '../../../shared/units.ts'
import { gramsTyped, millilitresFrom } from '../../../shared/units.ts'
import type { BatchAsked } from '../../../db/reports/glaze-batch.ts'
import { refuseMissing } from '../missing.ts'
import { saidOnly, type Typed } from '../typed.ts'

type Asked = Omit<BatchAsked, 'studioId' | 'glazeId'>

const DIGITS = /^\d{1,9}(\.\d{1,6})?$/

/** How much glaze was asked for: so many litres, so many grams dry, or enough for some pots. */
export function batchAsked(typed: Typed): Asked {
  const asked = saidOnly({
    versionNo: versionOf(typed),
    gramsPerMillilitre: densityOf(typed),
  })
  const dryGrams = typed.text('dryGrams')
  if (dryGrams !== undefined) return { ...asked, dryGrams: positive('dryGrams', dryGrams) }
  if (typed.hasMass('dry')) {
    const mass = typed.mass('dry')
    return { ...asked, dryGrams: positive('dry', mass === undefined ? '' : gramsTyped(mass)) }
  }
  const volume = typed.decimal('volume')
  if (volume !== undefined) {
    const unit = VOLUME_UNITS.find((one) => one === typed.text('volumeUnit')) ?? 'l'
    const value = positive('volume', volume)
    return { ...asked, millilitres: millilitresFrom({ value, unit }).toFixed() }
  }
  const runIds = typed.all('runIds')
  if (runIds.length === 0) refuseMissing('volume', 'How much? Litres, grams dry, or some pots.')
  return { ...asked, runIds, ...saidOnly({ vesselId: typed.text('vesselId') }) }
}

function positive(field: string, digits: string): string {
  if (DIGITS.test(digits) && Number(digits) > 0) return digits
  return refuseMissing(field, 'Write how much, in digits, more than nothing.')
}

function versionOf(typed: Typed): number | undefined {
  const text = typed.text('versionNo') ?? ''
  return /^[1-9]\d{0,4}$/.test(text) ? Number(text) : undefined
}

function densityOf(typed: Typed): string | undefined {
  const digits = typed.decimal('density')
  if (digits === undefined) return undefined
  if (DIGITS.test(digits) && Number(digits) > 1 && Number(digits) <= 5) return digits
  return refuseMissing('density', 'A glaze weighs between 1 and 5 grams a millilitre.')
}
