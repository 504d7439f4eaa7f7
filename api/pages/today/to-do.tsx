import type { PlasterBoard } from '../../../db/reports/plaster.ts'
import type { WaitingReport } from '../../../db/reports/waiting.ts'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'

/** Something that waits for somebody. */
export interface Todo {
  readonly href: string
  readonly name: string
  readonly words: string
}

interface Known {
  readonly board: PlasterBoard
  readonly waiting: WaitingReport
  readonly voice: Voice
}

/** How many counts are named one by one before they are only counted. */
const COUNTS_NAMED = 3

/** What waits, in the order of how soon it spoils: plaster first, then pots, then clay and counts. */
export function todosOf(known: Known): readonly Todo[] {
  return [...plasterTodos(known), ...potTodos(known), ...clayTodos(known), ...countTodos(known)]
}

function plasterTodos({ board, voice }: Known): Todo[] {
  return board.loads.map((load) => ({
    href: `/plaster/${load.lotId}`,
    name: `Plaster: ${load.batName}`,
    words: voice.words(upTo(load.words, ' Too dry')),
  }))
}

/** The first sentences of some words; the page of the slab has the others. */
function upTo(words: string, end: string): string {
  return words.split(end)[0] ?? words
}

type Pots = WaitingReport['pots'][number]

function potTodos({ waiting, voice }: Known): Todo[] {
  const at = (place: Pots['place']) => waiting.pots.filter((pots) => pots.place === place)
  const green = at('greenware').map((pots) => ({
    href: `/wheel/run/${pots.runId}`,
    name: pots.label,
    words: voice.words(
      `${pots.pieces} on the boards, ${pots.isTurned ? 'turned' : 'not turned'}, since ${voice.moment(pots.latestAt)}`,
    ),
  }))
  return [
    ...green,
    ...together(at('glazed'), 'To grade', voice),
    ...together(at('bisque'), 'Bisque, to glaze', voice),
  ]
}

/** Pots of several runs that wait for the same. */
function together(pots: readonly Pots[], name: string, voice: Voice): Todo[] {
  const [oldest] = pots
  if (oldest === undefined) return []
  const runs = pots.map(({ label, pieces }) => `${pieces} of ${label}`)
  return [{ href: '/kiln', name, words: `${runs.join('; ')}, since ${voice.day(oldest.latestAt)}` }]
}

function clayTodos({ waiting, voice }: Known): Todo[] {
  return waiting.clays
    .filter(({ isDue }) => isDue)
    .map(({ trail, name, weeks, usableDryGrams }) => ({
      href: trailHref(trail),
      name: `Order ${name}`,
      words: `Bags and bench hold ${voice.mass(usableDryGrams)} dry: about ${String(weeks)} weeks at the pace of the last eight.`,
    }))
}

function countTodos({ waiting, voice }: Known): Todo[] {
  const due = waiting.countsDue
  if (due.length === 0) return []
  const named = due
    .slice(0, COUNTS_NAMED)
    .map(({ name, countedAt }) =>
      countedAt === null ? `${name} (never)` : `${name} (${voice.day(countedAt)})`,
    )
  const more = due.length > COUNTS_NAMED ? ` and ${String(due.length - COUNTS_NAMED)} more` : ''
  return [
    {
      href: '/books/count',
      name: 'Count or weigh',
      words: `Not weighed or counted in the last month: ${named.join(', ')}${more}.`,
    },
  ]
}

/** The list of what waits. */
export function ToDo({ todos }: { todos: readonly Todo[] }) {
  return (
    <section>
      <h2>What waits</h2>
      {todos.length === 0 ? <p>Nothing waits.</p> : null}
      <ul class="targets">
        {todos.map(({ href, name, words }) => (
          <li>
            <a class="target" href={href}>
              <strong>{name}</strong>
              <span>{words}</span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
}
