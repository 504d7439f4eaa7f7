import type { Phone } from './browser.ts'
import { Hand, type Touches } from './hand.ts'

/** What a common act may cost, from Today on: taps beside the digits, our choice. */
export const TOUCHES_AT_MOST = {
  'weigh in turnings': 3,
  'throw the same as last time': 3,
  'turn, with the turnings weighed': 3,
  'weigh a slab': 3,
  sell: 3,
} as const

export type CommonAct = keyof typeof TOUCHES_AT_MOST

/** A day of one pair of hands, and what its commonest acts cost them. */
export class Day {
  readonly hand: Hand
  readonly touches = new Map<CommonAct, Touches>()

  constructor(phone: Phone) {
    this.hand = new Hand(phone)
  }

  async today(): Promise<void> {
    await this.hand.page.goto('/')
  }

  /** Does a common act, from Today on, and keeps how often it was tapped. */
  async counts(act: CommonAct, does: () => Promise<void>): Promise<void> {
    await this.today()
    this.touches.set(act, await this.hand.counted(does))
  }

  /** The page of the run of a form that was worked on last. */
  async lastRun(form: RegExp): Promise<void> {
    await this.hand.page.goto('/wheel')
    await this.hand.go(form)
  }
}
