import type { Context } from 'hono'
import { newRouter } from '../../../router.ts'
import { FaultOfFile, LETTERS, textOfFile, TOO_LARGE, type Letters } from '../../../sales-file.ts'
import type { Environment } from '../../../services.ts'
import type { FormFaults } from '../../field-words.tsx'
import { show } from '../../show.tsx'
import { allForms, type Form } from '../../things.ts'
import { Typed } from '../../typed.ts'
import { broughtOf, type Brought } from './brought.ts'
import { SALES_IMPORT, STEPS, type Step } from './carried.tsx'
import { ColumnsStep } from './columns-step.tsx'
import { faultsOfColumns, faultsOfNames } from './faults-of-steps.ts'
import { FileStep } from './file-step.tsx'
import { namesAsked, type NameAsked } from './meanings.ts'
import { PiecesStep } from './pieces-step.tsx'
import { OnTheWay } from './on-the-way.tsx'
import { planOf, type Plan, type SalePlanned } from './planned.ts'
import { PreviewStep } from './preview-step.tsx'
import { outcomeOf, progressOf, type Progress } from './progress.ts'
import { recordSales } from './record.ts'
import { ResultStep, type Result } from './result-step.tsx'

type PageContext = Context<Environment>

const TITLE = 'Bring sales in from a file'
const HERE = { title: TITLE, here: 'books' } as const

/** Sales from the file of any shop or till, step by step; each step carries the file to the next. */
export const salesImport = newRouter()

salesImport.get(SALES_IMPORT, (c) => {
  const isTooLarge = c.req.query('too-large') === 'yes'
  return showFile(c, isTooLarge ? faultsOfFile(TOO_LARGE) : undefined)
})

salesImport.post(SALES_IMPORT, async (c) => {
  const form = await c.req.formData()
  const typed = new Typed(form)
  try {
    const brought = broughtOf(await textBrought(form, typed), typed, c.get('voice'))
    return await showStep(c, { typed, brought })
  } catch (error) {
    if (!(error instanceof FaultOfFile)) throw error
    return showFile(c, faultsOfFile(error.message), 422)
  }
})

/** The file of the rows to mend, which the page carries. */
salesImport.post(`${SALES_IMPORT}/refused.csv`, async (c) => {
  const csv = (await c.req.formData()).get('csv')
  return c.body(typeof csv === 'string' ? csv : '', 200, {
    'Content-Type': 'text/csv; charset=utf-8',
    'Content-Disposition': 'attachment; filename="sales-to-mend.csv"',
  })
})

function showFile(c: PageContext, faults?: FormFaults, status?: 422): Promise<Response> {
  return show(c, { ...HERE, status }, <FileStep studioId={c.get('studioId')} faults={faults} />)
}

function faultsOfFile(detail: string): FormFaults {
  return { title: 'This file cannot be read', all: [{ field: 'file', detail }] }
}

/** What the form carries, or else the file that was chosen, or the rows that were pasted. */
async function textBrought(form: FormData, typed: Typed): Promise<string> {
  const text = form.get('text')
  if (typeof text === 'string') return text
  const file = form.get('file')
  if (file instanceof File && file.size > 0) {
    const said = typed.text('letters')
    const letters: Letters = LETTERS.find((one) => one === said) ?? 'found'
    return textOfFile(new Uint8Array(await file.arrayBuffer()), letters)
  }
  const pasted = form.get('pasted')
  if (typeof pasted === 'string' && pasted.trim() !== '') return pasted
  throw new FaultOfFile('Choose a file, or paste its rows.')
}

interface Way {
  readonly typed: Typed
  readonly brought: Brought
}

/** The step that was asked for, or the one before it where something is not said yet. */
async function showStep(c: PageContext, { typed, brought }: Way): Promise<Response> {
  const voice = c.get('voice')
  const step: Step = STEPS.find((one) => one === typed.text('step')) ?? 'columns'
  const askColumns = (faults?: FormFaults) =>
    show(
      c,
      { ...HERE, status: faults === undefined ? 200 : 422 },
      <ColumnsStep brought={brought} voice={voice} faults={faults} />,
    )
  if (step === 'file' || step === 'columns') return askColumns()
  const faults = faultsOfColumns(brought)
  if (faults !== undefined) return askColumns(faults)
  const forms = await allForms(c)
  const names = namesAsked(brought, typed, forms)
  const askPieces = (wrong?: FormFaults) =>
    show(
      c,
      { ...HERE, status: wrong === undefined ? 200 : 422 },
      <PiecesStep brought={brought} names={names} forms={forms} faults={wrong} />,
    )
  if (step === 'pieces') return askPieces()
  const faultsOfPieces = faultsOfNames(names, forms)
  if (faultsOfPieces !== undefined) return askPieces(faultsOfPieces)
  const plan = await planOf(c.get('services'), voice, { brought, names, forms })
  return step === 'record'
    ? showRecorded(c, { typed, brought }, { names, plan })
    : showPreview(c, brought, { names, forms, plan })
}

function showPreview(
  c: PageContext,
  brought: Brought,
  seen: { names: readonly NameAsked[]; forms: readonly Form[]; plan: Plan },
): Promise<Response> {
  const voice = c.get('voice')
  return show(c, HERE, <PreviewStep brought={brought} voice={voice} by={c.get('by')} {...seen} />)
}

/** Records, and shows what came of it, or how far it has come. */
async function showRecorded(
  c: PageContext,
  { typed, brought }: Way,
  { names, plan }: { names: readonly NameAsked[]; plan: Plan },
): Promise<Response> {
  const voice = c.get('voice')
  const ticked = new Set(typed.all('again'))
  const isWanted = ({ why, key }: SalePlanned) => why === undefined || ticked.has(key)
  const { planned } = plan
  const progress = await recordSales(c.get('services'), voice, {
    planned,
    isWanted,
    by: typed.text('by') ?? c.get('by'),
    progress: progressOf(typed),
  })
  if (progress.from < planned.length) {
    const way = { brought, names, typed, progress, sales: planned.length }
    return show(c, HERE, <OnTheWay {...way} />)
  }
  const result = resultOf(plan, progress, isWanted)
  return show(c, HERE, <ResultStep brought={brought} result={result} voice={voice} />)
}

function resultOf(plan: Plan, progress: Progress, isWanted: (one: SalePlanned) => boolean): Result {
  const { planned, leftOut, faults } = plan
  const done = new Set([...progress.recorded, ...progress.knownMeanwhile])
  const unwanted = planned.filter((one, place) => !isWanted(one) && !done.has(place))
  const salesOf = (isBrought: boolean) =>
    unwanted.filter(({ why }) => (why === 'brought') === isBrought).map(({ sale }) => sale)
  return {
    ...outcomeOf(planned, progress),
    known: salesOf(true),
    notTicked: salesOf(false),
    notOurs: leftOut.length,
    faults,
  }
}
