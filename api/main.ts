import { v7 as newUuid } from 'uuid'
import { listStudios } from '../db/catalogue-studios.ts'
import { isDemoBrokenOff, loadDemo } from '../db/demo.ts'
import type { Services } from '../db/perform.ts'
import { monthReport } from '../db/reports/month.ts'
import { moneyOfStudios } from '../db/reports/money.ts'
import { reconcile } from '../db/reports/reconcile.ts'
import { monthOf } from '../shared/month.ts'
import { newApp } from './app.ts'
import { ConfigFault, readConfig, type Config } from './config.ts'
import { listen, PortTaken } from './listen.ts'
import { moneyText } from './money-text.ts'
import { monthReportText } from './month-text.ts'
import { openLedger, type OpenLedger } from './open-ledger.ts'
import { prepareAssets } from './pages/assets.ts'
import type { Logger } from './services.ts'
import { lineLogger, quietLogger } from './terminal.ts'

const DATA_FOLDER = '.slakebook'
const DEMO_DATA_FOLDER = '.slakebook-demo'

const USAGE = `Usage: start | demo [--once] | reconcile
  start      keep the books and serve them (this is what happens without a word)
  demo       the same with a made-up studio in a folder of its own, and its month in the terminal
             --once: show the month and leave
  reconcile  add every balance up again from its lines, and say where each studio's money came from and
             where it is; exit 1 where they disagree`

const say = (line: string) => console.log(line)
const warn = (line: string) => console.error(line)

/** The clock and the maker of ids: the only ones there are. */
const now = () => new Date()
const newId = () => newUuid()

async function start(config: Config): Promise<void> {
  const ledger = await openLedger({
    databaseUrl: config.databaseUrl,
    dataFolder: config.dataFolder ?? DATA_FOLDER,
    say,
  })
  await serve(config, ledger, lineLogger(say, warn))
}

/** The demo never touches the database that DATABASE_URL names: that one holds somebody's books. */
async function demo(config: Config, isOnce: boolean): Promise<void> {
  const ledger = await openLedger({
    databaseUrl: undefined,
    dataFolder: config.dataFolder ?? DEMO_DATA_FOLDER,
    say,
  })
  await orLeave(ledger, async () => {
    const asked = await demoStudio({ db: ledger.db, now, newId })
    if (asked === undefined) throw new DemoBrokenOff(config.dataFolder ?? DEMO_DATA_FOLDER)
    say('')
    say(monthReportText(await monthReport(ledger.db, asked)))
  })
  if (isOnce) await ledger.close()
  else await serve(config, ledger, quietLogger(warn))
}

/** A half-told story would show figures that mean nothing. */
class DemoBrokenOff extends Error {
  constructor(folder: string) {
    super(
      `The demo in ${folder} was broken off while it was written. Remove the folder and start again.`,
    )
  }
}

async function demoStudio(
  services: Services,
): Promise<{ studioId: string; month: string } | undefined> {
  const [studio] = await listStudios(services.db, { limit: 1 })
  if (studio === undefined) {
    say('Writing some months of a made-up studio into an empty ledger; this takes a moment.')
    return loadDemo(services)
  }
  if (await isDemoBrokenOff(services, studio.studioId)) return undefined
  const today = now()
  const lastMonth = new Date(Date.UTC(today.getUTCFullYear(), today.getUTCMonth(), 0))
  return { studioId: studio.studioId, month: monthOf(lastMonth, studio.timeZone) }
}

async function reconcileBooks(config: Config): Promise<void> {
  const ledger = await openLedger({
    databaseUrl: config.databaseUrl,
    dataFolder: config.dataFolder ?? DATA_FOLDER,
    say: () => undefined,
  })
  await orLeave(ledger, async () => {
    const { holdings, entries, faults } = await reconcile(ledger.db)
    for (const fault of faults) {
      warn(`${fault.promise}: ${fault.id} of studio ${fault.studioId}: ${fault.detail}`)
    }
    for (const money of await moneyOfStudios(ledger.db)) say(moneyText(money))
    const verdict = faults.length === 0 ? 'all agree' : `${String(faults.length)} faults`
    say(`${String(holdings)} holdings and ${String(entries)} entries: ${verdict}.`)
    if (faults.length > 0) process.exitCode = 1
  })
  await ledger.close()
}

async function serve(config: Config, ledger: OpenLedger, log: Logger): Promise<void> {
  prepareAssets(log)
  const app = newApp({ db: ledger.db, now, newId, log })
  const { address, drain } = await orLeave(ledger, () => listen(app, config))
  say(`Slakebook is at ${address}`)
  await stopSignal()
  say('Stopping: letting what is under way end.')
  await drain()
  await ledger.close()
}

/** Whatever fails after the ledger is open must not leave its server running. */
async function orLeave<T>(ledger: OpenLedger, work: () => Promise<T>): Promise<T> {
  try {
    return await work()
  } catch (error) {
    await ledger.close()
    throw error
  }
}

function stopSignal(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve())
  })
}

async function run([command = 'start', ...choices]: string[]): Promise<void> {
  const config = readConfig()
  if (command === 'start' && choices.length === 0) return start(config)
  if (command === 'demo' && choices.every((choice) => choice === '--once')) {
    return demo(config, choices.length > 0)
  }
  if (command === 'reconcile' && choices.length === 0) return reconcileBooks(config)
  warn(USAGE)
  process.exitCode = 1
}

try {
  await run(process.argv.slice(2))
} catch (error) {
  const isTold = [ConfigFault, PortTaken, DemoBrokenOff].some((kind) => error instanceof kind)
  if (!isTold || !(error instanceof Error)) throw error
  warn(error.message)
  process.exitCode = 1
}
