import {
  writtenNear,
  writtenNearSpan,
  type NearBy,
  type NearSpan,
} from '../../../shared/near-moment.ts'
import { wallTime } from '../../../shared/studio-clock.ts'
import type { Voice } from '../voice.ts'

type Span = Parameters<typeof writtenNearSpan>[0]

/** A moment as somebody says it who stands by: `today 18:00`, `Thu 07:30`. */
export function near(moment: string, voice: Voice): string {
  return writtenNear(wallTime(new Date(moment), voice.studio.timeZone), byOf(voice))
}

/** A moment of a report with where it may lie; the report tells it by the studio's clock already. */
export function nearSpan(span: Span, voice: Voice): NearSpan {
  return writtenNearSpan(span, byOf(voice))
}

function byOf({ now, studio }: Voice): NearBy {
  return { now: wallTime(now, studio.timeZone), order: studio.dateOrder }
}
