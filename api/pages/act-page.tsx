import type { Context } from 'hono'
import type { Child } from 'hono/jsx'
import { correctEntry } from '../../db/correct.ts'
import {
  performAct,
  type ActAnswer,
  type Circumstances,
  type Occasion,
  type Services,
} from '../../db/perform.ts'
import { Refusal } from '../../shared/refusal.ts'
import type { Caution } from '../../shared/silica.ts'
import { wallMinute } from '../../shared/studio-clock.ts'
import { momentOfWallTime } from '../../shared/written-day.ts'
import type { DefinedAct } from '../acts/define.ts'
import { FaultOfForm, faultsOf } from '../faults.ts'
import { refuseFinerThanCoin } from '../money-of-studio.ts'
import type { newRouter } from '../router.ts'
import type { Environment } from '../services.ts'
import { ActForm } from './act-form.tsx'
import type { FormFaults } from './field-words.tsx'
import { faultsForPage, throwPlainly } from './page-faults.ts'
import type { Room } from './frame.tsx'
import { show } from './show.tsx'
import { saidOnly, Typed } from './typed.ts'
import { typedInto } from './typed-into.ts'
import type { Voice } from './voice.ts'
import { WouldBe } from './would-be.tsx'

type Pages = ReturnType<typeof newRouter>
type PageContext = Context<Environment>

export interface ActFormProps<Data> {
  readonly data: Data
  readonly typed: Typed
  readonly voice: Voice
  readonly faults: FormFaults | undefined
}

type FieldNames = Readonly<Record<string, string>>

/** Several acts that are done together: what is said for all of them, and how they are done. */
export interface ActsTogether {
  readonly schema: DefinedAct['schema']
  readonly perform: (
    services: Services,
    occasion: Occasion,
    said: Circumstances,
  ) => Promise<{ answer: ActAnswer; isRetry: boolean }>
}

/** An act as a page: its form, and how what was typed becomes what the act is told. */
export interface ActPage<Data> {
  readonly path: string
  readonly act: DefinedAct | ActsTogether
  readonly here: Room
  /** What the page needs to know. May refuse: what is not there answers as a problem. */
  readonly load: (c: PageContext) => Promise<Data>
  readonly title: (data: Data, voice: Voice) => string
  /** What stands on the big button. */
  readonly press: string
  /** What the act is told, as the API takes it. When, who and note are added. */
  readonly said: (typed: Typed, data: Data) => object
  /** The fields of the form by what they are called in the act: the longest that fits counts. */
  readonly fieldOf: FieldNames | ((typed: Typed, data: Data) => FieldNames)
  readonly Form: (props: ActFormProps<Data>) => Child
  /** Fields that are mostly right as they are; they stand below the press. */
  readonly After?: (props: ActFormProps<Data>) => Child
  /** The mass that the keys for wet hands type, where the page shows them beside the press. */
  readonly keysFor?: string
  /** Words for what waits on the phone: "Bucket of turnings". The title where it is not said. */
  readonly keeps?: (data: Data, voice: Voice) => string
  /** Where to go afterwards; the same page where it is not said. */
  readonly next?: (answer: ActAnswer, data: Data) => string
  /** What is dry already, before anything is typed. */
  readonly cautions?: (data: Data) => readonly Caution[]
  /** Below the form. */
  readonly Below?: (props: { data: Data; voice: Voice }) => Child
}

/** Where one act is told, and which of its fields says what. */
export interface PlaceOfAct {
  readonly path: string
  readonly act: DefinedAct
  readonly fieldOf: FieldNames
}

const PAGES_OF_ACTS: PlaceOfAct[] = []

/** The pages on which acts are told, in the order in which they were put there. */
export function pagesOfActs(): readonly PlaceOfAct[] {
  return PAGES_OF_ACTS
}

/** Puts an act's page at its address: GET shows the form, POST does the act or says why not. */
export function actPage<Data>(router: Pages, page: ActPage<Data>): void {
  const { path, act, fieldOf } = page
  if ('act' in act && typeof fieldOf !== 'function') PAGES_OF_ACTS.push({ path, act, fieldOf })
  router.get(page.path, async (c) => {
    const data = await page.load(c)
    return showForm(c, { page, data, typed: new Typed(new URL(c.req.url).searchParams) })
  })
  router.post(page.path, async (c) => {
    const data = await page.load(c)
    const typed = await typedInto(c)
    const isForScript = c.req.header('accept') === 'application/json'
    if (isForScript) return answerScript(c, { page, data, typed })
    try {
      return typed.text('preview') === 'true'
        ? await answerPreview(c, { page, data, typed })
        : await answerPress(c, { page, data, typed })
    } catch (error) {
      const { fieldOf } = page
      const names = typeof fieldOf === 'function' ? fieldOf(typed, data) : fieldOf
      const { faults, status } = faultsForPage(error, names, voiceOfPage(c))
      // What is half typed is no error: the answer is what is still wanted.
      if (typed.text('preview') === 'true') return c.html(<WouldBe faults={faults} />)
      return showForm(c, { page, data, typed, faults, status })
    }
  })
}

interface Asked<Data> {
  readonly page: ActPage<Data>
  readonly data: Data
  readonly typed: Typed
}

/** The phone's own queue: the plain answer, and where to go next. */
async function answerScript<Data>(c: PageContext, asked: Asked<Data>): Promise<Response> {
  const { answer, isRetry } = await doIt(c, asked).catch((error: unknown) =>
    throwPlainly(error, voiceOfPage(c)),
  )
  c.header('Slakebook-Next', nextOf(c, asked, answer))
  if (isRetry) c.header('Idempotency-Replayed', 'true')
  return c.json(answer, 201)
}

async function answerPreview<Data>(c: PageContext, asked: Asked<Data>): Promise<Response> {
  const { answer } = await doIt(c, asked, { preview: true })
  return c.html(
    <WouldBe
      answer={answer}
      voice={voiceOfPage(c)}
      remarks={asked.typed.remarks}
      isCautioned={asked.typed.isYes('seen')}
    />,
  )
}

/**
 * The press. What is dry, or may be a slip of the pen, is shown first where it was not yet; the next
 * press then records. A form that was pressed before is mostly refused when it is tried again, for what
 * it did stands: its key then gives the same answer, and any other form gets its refusal.
 */
async function answerPress<Data>(c: PageContext, asked: Asked<Data>): Promise<Response> {
  const { typed } = asked
  const isSeen = typed.isYes('seen')
  const isAsked = typed.isYes('asked')
  if (!isSeen || !isAsked) {
    const tried = await tryIt(c, asked)
    const cautions = tried?.cautions ?? []
    const isNew = (!isSeen && cautions.length > 0) || (!isAsked && typed.remarks.length > 0)
    if (tried !== undefined && isNew) return showForm(c, { ...asked, cautions, tried })
  }
  const { answer } = await doIt(c, asked)
  return c.redirect(nextOf(c, asked, answer), 303)
}

/** What would be recorded; nothing where that is refused. */
async function tryIt<Data>(c: PageContext, asked: Asked<Data>): Promise<ActAnswer | undefined> {
  try {
    return (await doIt(c, asked, { preview: true })).answer
  } catch (error) {
    if (error instanceof Refusal) return undefined
    throw error
  }
}

function nextOf<Data>(c: PageContext, { page, data }: Asked<Data>, answer: ActAnswer): string {
  const next = page.next?.(answer, data) ?? c.req.path
  return `${next}${next.includes('?') ? '&' : '?'}did=${answer.entry.entryId}`
}

/** Does the act, or tries it, as it was typed. Throws what is wrong with its form, or the refusal. */
async function doIt<Data>(
  c: PageContext,
  { page, data, typed }: Asked<Data>,
  choices: { preview?: boolean } = {},
) {
  typed.remarks.length = 0
  const said = { ...page.said(typed, data), ...circumstancesOf(c, typed) }
  const read = page.act.schema.safeParse(said)
  if (!read.success) throw new FaultOfForm(faultsOf(read.error.issues, 'json'))
  await refuseFinerThanCoin(c, read.data)
  const occasion = {
    studioId: c.get('studioId'),
    idempotencyKey: typed.text('key'),
    preview: choices.preview === true,
  }
  const services = c.get('services')
  if ('perform' in page.act) return page.act.perform(services, occasion, read.data)
  const deed = { act: page.act.act, said: read.data }
  const instead = typed.text('instead')
  if (instead === undefined) return performAct(services, occasion, deed)
  const wrong = { entryId: instead, by: read.data.by, happenedAt: typed.text('backAt') }
  return correctEntry(services, occasion, { said: saidOnly(wrong), again: deed })
}

/** When, who, and what a later reader should know. */
export function circumstancesOf(c: PageContext, typed: Typed): Circumstances {
  const when = typed.text('when')
  const { timeZone } = voiceOfPage(c).studio
  const happenedAt =
    when === undefined
      ? typed.text('happenedAt')
      : (momentKept(when, typed, timeZone) ?? momentOfWallTime(when, timeZone)?.toISOString())
  const by = typed.text('by') ?? c.get('by')
  const note = typed.text('note')
  return {
    ...(happenedAt === undefined
      ? when === undefined
        ? {}
        : { happenedAt: when }
      : { happenedAt }),
    ...(by === undefined ? {} : { by }),
    ...(note === undefined ? {} : { note }),
  }
}

/** What is told again keeps its very moment, unless another minute was put in. */
function momentKept(when: string, typed: Typed, timeZone: string): string | undefined {
  const wasAt = typed.text('wasAt')
  if (wasAt === undefined || Number.isNaN(Date.parse(wasAt))) return undefined
  const minute = wallMinute(new Date(wasAt), timeZone)
  return minute === when.slice(0, minute.length) ? wasAt : undefined
}

function voiceOfPage(c: PageContext): Voice {
  return c.get('voice')
}

interface FormShown<Data> extends Asked<Data> {
  readonly faults?: FormFaults | undefined
  readonly status?: 404 | 409 | 422 | undefined
  readonly cautions?: readonly Caution[] | undefined
  readonly tried?: ActAnswer | undefined
}

function showForm<Data>(c: PageContext, shown: FormShown<Data>): Promise<Response> {
  const { page, data, typed, faults, status, tried } = shown
  const voice = voiceOfPage(c)
  const title = page.title(data, voice)
  const { Form, After, Below } = page
  const fields = { data, typed, voice, faults }
  return show(
    c,
    { title, here: page.here, status },
    <>
      <h1 class="of-act">{title}</h1>
      <ActForm
        action={`${c.req.path}?studio=${c.get('studioId')}`}
        newKey={c.get('services').newId()}
        keeps={page.keeps?.(data, voice) ?? title}
        press={page.press}
        by={c.get('by')}
        typed={typed}
        faults={faults}
        cautions={shown.cautions ?? page.cautions?.(data) ?? []}
        mustSee={shown.cautions !== undefined}
        keysFor={keysFor(page, voice)}
        after={After === undefined ? null : <After {...fields} />}
        estimate={
          tried === undefined ? undefined : (
            <WouldBe answer={tried} voice={voice} remarks={typed.remarks} />
          )
        }
      >
        <Form {...fields} />
      </ActForm>
      {Below === undefined ? null : <Below data={data} voice={voice} />}
    </>,
  )
}

/** In a studio of pounds the keys begin with the pounds. */
function keysFor<Data>(page: ActPage<Data>, voice: Voice): string | undefined {
  if (page.keysFor === undefined || voice.studio.massUnits === 'metric') return page.keysFor
  return `${page.keysFor}Pounds`
}
