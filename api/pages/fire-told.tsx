import type { EntryView } from '../../db/entry-shown.ts'
import { decimal } from '../../shared/decimal.ts'
import { firingRead } from '../../shared/firing-told.ts'
import { emptyRoomWords, kilnFill } from '../../shared/kiln-fill.ts'
import { lossInWords, type LossShown } from '../../shared/loss-in-words.ts'
import { minorUnitDigits } from '../../shared/money.ts'
import { piecesTogether } from '../../shared/pieces-left.ts'
import type { Voice } from './voice.ts'

type Firing = NonNullable<EntryView['firing']>

const decimalOr = (text: string | null) => (text === null ? null : decimal(text))

/** What a fire cost, what a piece bears of it, how full it was, and what it would be in a full kiln. */
export function FireTold({ firing, voice }: { firing: Firing; voice: Voice }) {
  return (
    <>
      {fireInWords(firing, voice).map((words) => (
        <p>{words}</p>
      ))}
    </>
  )
}

/** The same as sentences. */
export function fireInWords(firing: Firing, voice: Voice): string[] {
  const read = readOf(firing, voice)
  const fraction = decimalOr(firing.fullFraction)
  const wear = decimal(firing.wearCost).isZero()
    ? ''
    : `, ${voice.money(firing.wearCost)} of it for elements and shelves`
  const money = `The fire cost ${voice.money(read.cost)}${wear}.`
  if (read.costPerPiece === null) return [`${money} No pot bears it.`]
  const empty =
    read.emptyRoom === null
      ? `${voice.money(read.costPerPiece)} a piece. How full the kiln was, nobody can tell.`
      : emptyRoomWords(read.emptyRoom, voice.money)
  const full =
    fraction === null
      ? ''
      : kilnFill({ load: [], volumeLitres: null, saidFraction: fraction }).words
  return [money, `${full} ${empty}`.trim()]
}

/** What is read out of a fire. */
export function readOf(firing: Firing, voice: Voice) {
  const pieces = piecesTogether(firing.shares.map((share) => share.pieces))
  return firingRead(
    {
      energyCost: decimal(firing.energyCost),
      wearCost: decimal(firing.wearCost),
      pieces: decimal(String(pieces)),
      fullFraction: decimalOr(firing.fullFraction),
      kilowattHours: decimalOr(firing.kilowattHours),
      firedGrams: decimal('0'),
      volumeLitres: null,
    },
    minorUnitDigits(voice.studio.currency),
  )
}

/** Whether what was lost is usual, and where its cost goes. */
export function LossesTold(props: { losses: readonly LossShown[]; voice: Voice }) {
  const { losses, voice } = props
  return (
    <>
      {losses.map((loss) => (
        <p>{voice.words(lossInWords(loss))}</p>
      ))}
    </>
  )
}
