import { link } from './shown-faults.ts'
import { timeWords } from './time-words.ts'

/** Lets this page, and those that it names for dead spots, be stored on the phone. */
export async function storeForDeadSpots(): Promise<void> {
  // Only over HTTPS and on the machine itself.
  const { serviceWorker } = navigator as { serviceWorker?: ServiceWorkerContainer }
  if (serviceWorker === undefined) return
  serviceWorker.addEventListener('controllerchange', () => void tell(serviceWorker))
  await serviceWorker.register('/service-worker.js', { scope: '/', updateViaCache: 'none' })
  await tell(serviceWorker)
}

async function tell(serviceWorker: ServiceWorkerContainer): Promise<void> {
  const { active } = await serviceWorker.ready
  const named = [...document.querySelectorAll<HTMLAnchorElement>('a[data-offline]')]
  const here = document.body.dataset['stored'] === undefined ? [location.href] : []
  active?.postMessage({ store: [...here, ...named.map(({ href }) => href)] })
}

/** Says on a stored page when it is from. */
export function sayWhenStored(): void {
  const storedAt = Number(document.body.dataset['stored'] ?? NaN)
  const main = document.querySelector('main')
  if (Number.isNaN(storedAt) || main === null) return
  const words = document.createElement('p')
  words.className = 'stored'
  words.setAttribute('role', 'status')
  words.textContent = `As of ${timeWords(storedAt)}; no network.`
  main.prepend(words)
  addEventListener('online', () => {
    words.replaceChildren(
      `As of ${timeWords(storedAt)}. There is a network again: `,
      link(location.href, 'show it as it is now'),
    )
  })
}
