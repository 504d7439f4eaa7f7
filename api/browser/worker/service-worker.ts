import { answerAsset, dropOldAssets, storeAssets } from './assets.ts'
import { answerPage, storePages } from './pages.ts'

/** Keeps the pages within reach where the network is not. */

declare const self: ServiceWorkerGlobalScope

self.addEventListener('install', (event) => {
  event.waitUntil(storeAssets().then(() => self.skipWaiting()))
})

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOldAssets().then(() => self.clients.claim()))
})

self.addEventListener('fetch', (event) => {
  const { request } = event
  const { origin, pathname } = new URL(request.url)
  // What is pressed goes its own way, through the phone's storage; nothing else is held up here.
  if (request.method !== 'GET' || origin !== self.location.origin) return
  if (pathname.startsWith('/assets/')) event.respondWith(answerAsset(request))
  else if (request.mode === 'navigate' && !pathname.startsWith('/v1/')) {
    event.respondWith(answerPage(event))
  }
})

self.addEventListener('message', (event) => {
  const { store } = event.data as { store?: string[] }
  if (store !== undefined) event.waitUntil(storePages(store))
})
