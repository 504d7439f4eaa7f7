/** What the server writes in front of this script: all that pages load, by version. */
declare const self: ServiceWorkerGlobalScope & {
  readonly slakebook: { readonly version: string; readonly addresses: readonly string[] }
}

const PREFIX = 'slakebook-assets-'
const SHELF = PREFIX + self.slakebook.version

/** The address of an asset as it is stored. */
export function assetAddress(path: string): string {
  return self.slakebook.addresses.find((one) => one.startsWith(`${path}?`)) ?? path
}

/** Stores all that pages load; where one is missing nothing is changed. */
export async function storeAssets(): Promise<void> {
  const shelf = await caches.open(SHELF)
  await shelf.addAll(self.slakebook.addresses.map((one) => new Request(one, { cache: 'reload' })))
}

/** Drops what pages of an earlier version loaded. */
export async function dropOldAssets(): Promise<void> {
  const names = await caches.keys()
  const old = names.filter((name) => name.startsWith(PREFIX) && name !== SHELF)
  await Promise.all(old.map((name) => caches.delete(name)))
}

/** From the shelf; another version from the network; without one, this version instead. */
export async function answerAsset(request: Request): Promise<Response> {
  const shelf = await caches.open(SHELF)
  const stored = await shelf.match(request)
  if (stored !== undefined) return stored
  try {
    return await fetch(request)
  } catch (error) {
    const other = await shelf.match(request, { ignoreSearch: true })
    if (other === undefined) throw error
    return other
  }
}
