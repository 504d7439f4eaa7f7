/** Chance from a seed: the same seed gives the same throws, on every machine. */
export class Chance {
  #state: number

  constructor(seed: number) {
    this.#state = seed >>> 0
  }

  /** A number from zero up to but without one; the generator known as mulberry32. */
  uniform(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), this.#state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }

  between(from: number, to: number): number {
    return from + (to - from) * this.uniform()
  }

  whole(from: number, to: number): number {
    return Math.floor(this.between(from, to + 1))
  }

  /** A standard normal deviation, by the method of Box and Muller. */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.uniform())) * Math.cos(2 * Math.PI * this.uniform())
  }

  pick<T>(from: readonly T[]): T {
    const one = from[this.whole(0, from.length - 1)]
    if (one === undefined) throw new TypeError('there is something to pick from')
    return one
  }
}
