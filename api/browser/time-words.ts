import { phoneNow } from './phone-clock.ts'

/** A time of day as people here write it, with its day where that is another one. */
export function timeWords(moment: number): string {
  const isToday = new Date(moment).toDateString() === new Date(phoneNow()).toDateString()
  const time = { hour: '2-digit', minute: '2-digit' } as const
  const day = { day: 'numeric', month: 'short' } as const
  return new Date(moment).toLocaleString(document.documentElement.lang, {
    ...(isToday ? {} : day),
    ...time,
    hourCycle: 'h23',
  })
}
