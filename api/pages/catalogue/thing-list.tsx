import type { CatalogueItem } from '../../../db/catalogue.ts'
import type { Voice } from '../voice.ts'
import type { ThingKind } from './kinds.ts'

/** The kinds of things that a studio has, each with how many there are. */
export function KindsOfThings(props: { counted: readonly { kind: ThingKind; things: number }[] }) {
  return (
    <>
      <h1>Things of the studio</h1>
      <p>
        What is weighed, made and dried on. Each is entered once; a change keeps what was before.
      </p>
      <ul class="targets">
        {props.counted.map(({ kind, things }) => (
          <li>
            <a class="target" href={`/books/things/${kind.resource.path}`}>
              <strong>{kind.many}</strong>
              <span>{things === 0 ? 'none yet' : String(things)}</span>
            </a>
          </li>
        ))}
      </ul>
      <p>
        <a href="/books">The books</a>
      </p>
    </>
  )
}

interface ThingListProps {
  readonly kind: ThingKind
  readonly things: readonly CatalogueItem[]
  /** The one that was just entered. */
  readonly entered: CatalogueItem | undefined
  readonly voice: Voice
}

/** All of one kind, each one touch. */
export function ThingList({ kind, things, entered, voice }: ThingListProps) {
  const { resource, many, one, about, line } = kind
  const path = `/books/things/${resource.path}`
  return (
    <>
      <h1>{many}</h1>
      {entered === undefined ? null : (
        <p class="recorded" role="status">
          <span>
            <strong>Entered:</strong> {String(entered['name'])}
          </span>
        </p>
      )}
      <p>{about}</p>
      <p>
        <a class="button" href={`${path}/new`}>
          Enter a {one}
        </a>
      </p>
      {things.length === 0 ? <p>None yet.</p> : null}
      <ul class="targets">
        {things.map((item) => (
          <li>
            <a class="target" href={`${path}/${String(item[resource.idName])}`}>
              <strong>{String(item['name'])}</strong>
              <span>{voice.words(line(item, voice))}</span>
            </a>
          </li>
        ))}
      </ul>
      <p>
        <a href="/books/things">Things of the studio</a> · <a href="/books">The books</a>
      </p>
    </>
  )
}
