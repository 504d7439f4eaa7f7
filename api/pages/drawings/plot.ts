import { scaleLinear, type ScaleLinear } from 'd3-scale'

/** Where on a drawing a part of it lies. */
export interface Frame {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** How a value becomes a place on the drawing; values that are all alike lie in its middle. */
export function scaleOver(
  values: readonly number[],
  range: readonly [number, number],
  margin = 0.08,
): ScaleLinear<number, number> {
  const [least, most] = [Math.min(...values), Math.max(...values)]
  const room = least === most ? Math.abs(least) * margin || margin : (most - least) * margin
  return scaleLinear()
    .domain([least - room, most + room])
    .range([...range])
}

/** A number as the drawing writes it. */
export function place(value: number): string {
  return value.toFixed(2).replace(/\.?0+$/, '')
}

/** Words in lines of at most so many letters, broken between words. */
export function linesOfWords(words: string, lettersMax: number): string[] {
  const lines: string[] = []
  for (const word of words.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && `${last} ${word}`.length <= lettersMax) {
      lines[lines.length - 1] = `${last} ${word}`
    } else lines.push(word)
  }
  return lines
}
