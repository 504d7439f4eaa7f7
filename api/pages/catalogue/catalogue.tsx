import type { Context } from 'hono'
import type { CatalogueItem } from '../../../db/catalogue.ts'
import { Refusal } from '../../../shared/refusal.ts'
import { changeThing, enterThing } from '../../catalogue/enter.ts'
import { newRouter } from '../../router.ts'
import type { Environment } from '../../services.ts'
import type { FormFaults } from '../field-words.tsx'
import { localPath, withQuery } from '../local-path.ts'
import { faultsForPage, faultsInVoice } from '../page-faults.ts'
import { show } from '../show.tsx'
import { Typed } from '../typed.ts'
import { typedInto } from '../typed-into.ts'
import { withChoices } from './choices-of.ts'
import { THING_KINDS, type ThingKind } from './kinds.ts'
import { MoistureOfBody } from './moisture-of-body.tsx'
import { fieldsByPointer } from './thing-field.ts'
import { ThingForm } from './thing-form.tsx'
import { ThingHistory } from './thing-history.tsx'
import { KindsOfThings, ThingList } from './thing-list.tsx'
import { changesSaid, faultsInPagesUnits, newThingSaid, typedOf } from './thing-said.ts'
import type { Voice } from '../voice.ts'

type PageContext = Context<Environment>

interface Filled {
  readonly typed: Typed
  readonly faults?: FormFaults
  readonly status?: 404 | 409 | 422
}

/** A studio has tens of each. */
const THINGS_MAX = 500

/** The things of the studio: what there is, what is new, and what has changed. */
export const catalogue = newRouter()

catalogue.get('/books/things', async (c) => {
  const counted = await Promise.all(
    THING_KINDS.map(async (kind) => ({ kind, things: (await allOf(c, kind)).length })),
  )
  return show(
    c,
    { title: 'Things of the studio', here: 'books' },
    <KindsOfThings counted={counted} />,
  )
})

for (const bare of THING_KINDS) {
  const path = `/books/things/${bare.resource.path}`
  catalogue.get(path, (c) => showList(c, bare))
  catalogue.get(`${path}/new`, async (c) => {
    const typed = new Typed(new URL(c.req.url).searchParams)
    return showNew(c, await withChoices(c, bare), { typed })
  })
  catalogue.post(`${path}/new`, async (c) => enter(c, await withChoices(c, bare)))
  catalogue.get(`${path}/:id`, async (c) => {
    const kind = await withChoices(c, bare)
    const item = await findOne(c, kind)
    return showOne(c, kind, { item, typed: typedOf(kind.fields, item, c.get('voice')) })
  })
  catalogue.post(`${path}/:id`, async (c) => change(c, await withChoices(c, bare)))
}

function allOf(c: PageContext, { resource }: ThingKind): Promise<CatalogueItem[]> {
  const { db } = c.get('services')
  return resource.catalogue.list(db, c.get('studioId'), { limit: THINGS_MAX })
}

function findOne(c: PageContext, { resource }: ThingKind): Promise<CatalogueItem> {
  const { db } = c.get('services')
  return resource.catalogue.find(db, c.get('studioId'), c.req.param('id') ?? '')
}

async function showList(c: PageContext, kind: ThingKind): Promise<Response> {
  const things = await allOf(c, kind)
  const entered = things.find((item) => item[kind.resource.idName] === c.req.query('entered'))
  return show(
    c,
    { title: kind.many, here: 'books' },
    <ThingList kind={kind} things={things} entered={entered} voice={c.get('voice')} />,
  )
}

async function enter(c: PageContext, kind: ThingKind): Promise<Response> {
  const typed = await typedInto(c)
  const { resource } = kind
  try {
    const item = await enterThing(c, resource, await newThingSaid(c, kind, typed))
    const id = String(item[resource.idName])
    const then = localPath(typed.text('then'))
    if (then !== undefined) return c.redirect(withQuery(then, resource.idName, id), 303)
    return c.redirect(withQuery(`/books/things/${resource.path}`, 'entered', id), 303)
  } catch (error) {
    return showNew(c, kind, faulty(error, { kind, typed, voice: c.get('voice') }))
  }
}

async function change(c: PageContext, kind: ThingKind): Promise<Response> {
  const typed = await typedInto(c)
  const item = await findOne(c, kind)
  const id = String(item[kind.resource.idName])
  try {
    refuseIfChangedMeanwhile(item, typed)
    const changes = changesSaid(kind, typed, { item, voice: c.get('voice') })
    if (Object.keys(changes).length > 0) await changeThing(c, kind.resource, { id, changes })
    return c.redirect(`/books/things/${kind.resource.path}/${id}?kept=yes`, 303)
  } catch (error) {
    const voice = c.get('voice')
    return showOne(c, kind, { item, ...faulty(error, { kind, typed, voice }) })
  }
}

/** What somebody else changed while the form was open is not written over unseen. */
function refuseIfChangedMeanwhile(item: CatalogueItem, typed: Typed): void {
  const was = typed.text('was')
  if (was === undefined || was === item['changedAt']) return
  throw new ChangedMeanwhile()
}

class ChangedMeanwhile extends Error {
  override readonly name = 'ChangedMeanwhile'
}

const MEANWHILE: FormFaults = {
  title: 'Changed meanwhile',
  all: [
    {
      detail:
        'Somebody changed this while you had it open. Below is what you typed, and further down what it is now. Keep yours by pressing again.',
    },
  ],
}

function faulty(
  error: unknown,
  { kind, typed, voice }: { kind: ThingKind; typed: Typed; voice: Voice },
): Filled {
  if (error instanceof ChangedMeanwhile) return { typed, faults: MEANWHILE, status: 409 }
  const fieldOf = { ...fieldsByPointer(kind.fields), [`/${kind.resource.idName}`]: 'name' }
  const { faults, status } = faultsForPage(error, fieldOf)
  const isTaken = error instanceof Refusal && error.code === 'name_must_be_new'
  const inWords = isTaken ? takenWords(typed, kind) : faultsInPagesUnits(faults, kind, typed)
  return { typed, faults: faultsInVoice(inWords, voice), status }
}

function takenWords(typed: Typed, kind: ThingKind): FormFaults {
  const name = typed.text('name') ?? ''
  const detail = `‘${name}’ is taken already. Find another name for this ${kind.one}, or change the one there is.`
  return { title: 'This name is taken', all: [{ field: 'name', detail }] }
}

function showNew(c: PageContext, kind: ThingKind, { typed, faults, status }: Filled) {
  const { resource, one, about, fields } = kind
  const title = `Enter a ${one}`
  const voice = c.get('voice')
  return show(
    c,
    { title, here: 'books', status },
    <>
      <h1>{title}</h1>
      <p>{about}</p>
      <ThingForm
        action={`/books/things/${resource.path}/new?studio=${c.get('studioId')}`}
        press="Enter it"
        fields={fields}
        typed={typed}
        voice={voice}
        faults={faults}
        then={localPath(typed.text('then'))}
      />
      <p>
        <a href={`/books/things/${resource.path}`}>{kind.many} that there are</a>
      </p>
    </>,
  )
}

async function showOne(c: PageContext, kind: ThingKind, shown: Filled & { item: CatalogueItem }) {
  const { item, typed, faults, status } = shown
  const { resource, fields } = kind
  const id = String(item[resource.idName])
  const { db } = c.get('services')
  const voice = c.get('voice')
  const versions = await resource.catalogue.history(db, c.get('studioId'), id)
  const name = String(item['name'])
  return show(
    c,
    { title: name, here: 'books', status },
    <>
      <h1>{name}</h1>
      {c.req.query('kept') === 'yes' ? (
        <p class="recorded" role="status">
          Kept.
        </p>
      ) : null}
      <ThingForm
        action={`/books/things/${resource.path}/${id}?studio=${c.get('studioId')}`}
        press="Keep the changes"
        fields={fields.filter(({ isFixed }) => isFixed !== true)}
        typed={typed}
        voice={voice}
        faults={faults}
        was={String(item['changedAt'])}
      />
      {resource.path === 'bodies' ? <MoistureOfBody c={c} bodyId={id} /> : null}
      {resource.path === 'vessels' || resource.path === 'bats' ? (
        <p>
          <a class="button" href={`/books/labels?which=${resource.one.split(' ').at(-1)}+${id}`}>
            A label to stick on it
          </a>
        </p>
      ) : null}
      {resource.path === 'materials' ? (
        <WaysOfMaterial id={id} kind={String(item['kind'])} />
      ) : null}
      <ThingHistory versions={versions} fields={fields} voice={voice} />
      <p class="off-paper">
        <a href={`/books/things/${resource.path}`}>All {kind.many.toLowerCase()}</a>
      </p>
    </>,
  )
}

/** Where more of a material is told than in the catalogue. */
function WaysOfMaterial({ id, kind }: { id: string; kind: string }) {
  return (
    <p class="row">
      {kind === 'glaze' ? (
        <a class="button" href={`/glaze/recipe/${id}`}>
          Its recipe
        </a>
      ) : null}
      <a class="button" href={`/books/materials/${id}`}>
        What is on the shelf
      </a>
    </p>
  )
}
