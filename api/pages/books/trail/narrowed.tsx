import type { Context } from 'hono'
import type { NameOf } from '../../../../db/reports/names.ts'
import type { Environment } from '../../../services.ts'
import { cursorOf } from '../../../schemas.ts'
import { addressWith, filledFields } from './asked.ts'
import { filterWords } from './filter-words.ts'

/** What is being shown, in words; each can be left out again. */
export function Narrowed({ c, nameOf }: { c: Context<Environment>; nameOf: NameOf }) {
  const said = filterWords(filledFields(c), c.get('voice'), nameOf)
  if (said.length === 0) return null
  return (
    <ul class="narrowed" aria-label="Shown here">
      {said.map(({ field, words }) => (
        <li>
          {words}{' '}
          <a href={addressWith(c, { [field]: undefined })} aria-label={`Leave out: ${words}`}>
            leave out
          </a>
        </li>
      ))}
    </ul>
  )
}

/** The way to what came before, where there is more. */
export function Older({ c, nextKey }: { c: Context<Environment>; nextKey: string | null }) {
  if (nextKey === null) return null
  return (
    <p>
      <a class="button" rel="next" href={addressWith(c, { cursor: cursorOf(nextKey) })}>
        Older
      </a>
    </p>
  )
}
