import { z } from '@hono/zod-openapi'
import type { Catalogue, CatalogueItem } from '../../db/catalogue.ts'
import { together } from '../together.ts'
import { wordsFor } from '../words-of-faults.ts'

/** One kind of thing that a studio has, as it is entered and changed. */
export interface CatalogueResource {
  /** As in the address: vessels. */
  readonly path: string
  readonly one: string
  readonly idName: string
  readonly catalogue: Catalogue
  /** What may be said when it is entered, its id among it. */
  readonly created: z.ZodObject
  /** What of it may change. */
  readonly changed: z.ZodType
  readonly shown: z.ZodType
  readonly example: CatalogueItem
  readonly exampleOfChange: CatalogueItem
}

/** A partial of a form in which something is said; what is fixed for good says so where it is named. */
export function changeOf<Shape extends z.ZodRawShape>(
  shape: Shape,
  name: string,
  fixed: Readonly<Record<string, string>> = {},
) {
  const error = (issue: z.core.$ZodRawIssue) => {
    if (issue.code !== 'unrecognized_keys') return undefined
    const words = issue.keys.flatMap((key) => fixed[key] ?? [])
    return [wordsFor(issue), ...words].join(' ')
  }
  return z
    .strictObject(shape, { error })
    .partial()
    .superRefine(
      together((said: object) => {
        if (Object.keys(said).length > 0) return undefined
        const names = Object.keys(shape).join(', ')
        return { message: `Name at least one field to change: ${names}.` }
      }),
    )
    .openapi(name)
}
