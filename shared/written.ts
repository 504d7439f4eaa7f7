import { Decimal } from './decimal.ts'

/** A shape with every decimal written out as text, as JSON carries it. */
export type Written<T> = T extends Decimal
  ? string
  : T extends readonly (infer Item)[]
    ? Written<Item>[]
    : T extends object
      ? { -readonly [Key in keyof T]: Written<T[Key]> }
      : T

/** The shape with every decimal written out in full. Units: as given; no digit is lost. */
export function written<T>(shape: T): Written<T> {
  return writtenOut(shape) as Written<T>
}

function writtenOut(shape: unknown): unknown {
  if (shape instanceof Decimal) return shape.toFixed()
  if (Array.isArray(shape)) return shape.map(writtenOut)
  if (typeof shape !== 'object' || shape === null) return shape
  return Object.fromEntries(Object.entries(shape).map(([key, value]) => [key, writtenOut(value)]))
}
