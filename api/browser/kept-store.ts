import { openDB, type DBSchema, type IDBPDatabase, type IDBPObjectStore } from 'idb'

/** Why something was not recorded, in the words of the server. */
export interface Refused {
  readonly title: string
  readonly details: readonly string[]
  /** A page that says what to do. */
  readonly more: string | undefined
}

/** What was pressed and is not known to be recorded. */
export interface Kept {
  /** The same however often it is sent, so that it is recorded once. */
  readonly key: string
  readonly action: string
  readonly body: string
  /** What it is, as a person would tell it: "Bucket of turnings 2.46 kg". */
  readonly words: string
  /** By the phone's clock, in milliseconds. */
  readonly keptAt: number
  readonly refused?: Refused
}

/** What is kept has its place in the line. */
export type KeptInLine = Kept & { readonly place: number }

interface Shelf extends DBSchema {
  kept: { key: number; value: KeptInLine }
}

const NAME = 'slakebook'
const STORE = 'kept'
/** A private window of some browsers never answers; a press does not wait for it. */
const OPEN_MILLISECONDS_MAX = 3000

const listeners: (() => void)[] = []
const otherTabs = 'BroadcastChannel' in globalThis ? new BroadcastChannel(NAME) : undefined
otherTabs?.addEventListener('message', () => hear())

let opened: Promise<IDBPDatabase<Shelf>> | undefined

/** Tells whenever something is kept, forgotten or set aside, in this tab or another. */
export function onKeptChange(listener: () => void): void {
  listeners.push(listener)
}

/**
 * Keeps what was pressed, at the end of the line. When this comes back it is on the phone's storage
 * and stays there whatever happens to the page, the browser or the battery.
 */
export async function keep(one: Kept): Promise<void> {
  await change((store) => store.add(one as KeptInLine))
}

/** All that is kept, oldest first. */
export async function allKept(): Promise<KeptInLine[]> {
  return (await openShelf()).getAll(STORE)
}

/** The oldest that still has to be sent. */
export async function nextToSend(): Promise<KeptInLine | undefined> {
  return (await allKept()).find(({ refused }) => refused === undefined)
}

/** Forgets what is recorded, what somebody put away, or what is back in its form. */
export async function forget(key: string): Promise<void> {
  await change(async (store) => {
    const one = (await store.getAll()).find((kept) => kept.key === key)
    if (one !== undefined) await store.delete(one.place)
  })
}

/** Sets aside what was refused, unless it is gone meanwhile. */
export async function setAside(one: KeptInLine, refused: Refused): Promise<void> {
  await change(async (store) => {
    const isThere = (await store.getKey(one.place)) !== undefined
    if (isThere) await store.put({ ...one, refused })
  })
}

type Store = IDBPObjectStore<Shelf, ['kept'], 'kept', 'readwrite'>

async function change(work: (store: Store) => Promise<unknown>): Promise<void> {
  const shelf = await openShelf()
  const { store, done } = shelf.transaction(STORE, 'readwrite', { durability: 'strict' })
  await Promise.all([work(store), done])
  otherTabs?.postMessage('changed')
  hear()
}

function hear(): void {
  for (const listener of listeners) listener()
}

function openShelf(): Promise<IDBPDatabase<Shelf>> {
  opened ??= withinTime(open()).catch((error: unknown) => {
    opened = undefined
    throw error
  })
  return opened
}

function open(): Promise<IDBPDatabase<Shelf>> {
  const leave = () => {
    opened = undefined
  }
  return openDB<Shelf>(NAME, 1, {
    upgrade: (shelf) => {
      shelf.createObjectStore(STORE, { keyPath: 'place', autoIncrement: true })
    },
    blocking: (_old, _new, event) => {
      leave()
      ;(event.target as IDBDatabase).close()
    },
    terminated: leave,
  })
}

function withinTime<T>(work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const late = () => reject(new Error('The storage of this phone does not answer'))
    setTimeout(late, OPEN_MILLISECONDS_MAX)
    work.then(resolve, reject)
  })
}
