import type { TurningReport } from '../../../db/reports/turning.ts'
import type { Voice } from '../voice.ts'
import { SingleValues } from './single-values.tsx'

interface TurningChartProps {
  readonly report: TurningReport
  readonly voice: Voice
}

/** What was turned off a form run by run, drawn beside its habit. */
export function TurningChart({ report, voice }: TurningChartProps) {
  const { chart, points, formName } = report
  if (points.length < 2) return null
  return (
    <SingleValues
      id="turned-off"
      title={`${formName}: ${voice.words('share turned off, run by run')}`}
      values={points.map(({ label, turnedOffFraction, signals }) => ({
        words: label,
        share: Number(turnedOffFraction),
        isSignal: signals.length > 0,
      }))}
      limits={
        chart && {
          centre: Number(chart.centreFraction),
          lower: Number(chart.lowerLimitFraction),
          upper: Number(chart.upperLimitFraction),
        }
      }
      shareWords={(share) => voice.share(share)}
    />
  )
}
