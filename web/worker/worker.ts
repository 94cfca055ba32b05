/**
 * Serves the pages where the shop's server does not answer: their code as it was last built, and photos seen before.
 *
 * An address is asked of the server first, so that a renewed server is renewed here with the next load, and taken from
 * here when it is silent. Names in `assets` carry a hash of their content and are never asked for twice. What the build
 * before this one brought stays, for pages that are still open with it. What people enter does not pass through here.
 */

/** Of a service worker's own world, which the types of a page do not know, what is used here. */
interface Worker {
  addEventListener(type: 'install' | 'activate', listener: (event: Lasting) => void): void
  addEventListener(type: 'fetch', listener: (event: Asked) => void): void
  skipWaiting(): Promise<void>
  clients: { claim(): Promise<void> }
}
interface Lasting {
  waitUntil(work: Promise<unknown>): void
}
interface Asked extends Lasting {
  request: Request
  respondWith(answer: Promise<Response>): void
}

/** Set by the build: what it made, and the name of all of it. */
declare const FILES: readonly string[]
declare const BUILD: string

const worker = globalThis as unknown as Worker
const PAGES = 'pages-'
const HERE = `${PAGES}${BUILD}`
const PHOTOS = 'photos'
const MOST_PHOTOS = 300
const PAGE = '/index.html'
/** What only the server has: a page in its place would be a blank one. */
const SERVERS_OWN = ['/api/', '/trust']
/** A server that has not answered by then is as good as none: a shop's Wi-Fi often looks up and is not. */
const SILENT_MS = 3000

worker.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(HERE)
      .then((cache) => cache.addAll(FILES))
      .then(() => worker.skipWaiting()),
  )
})

worker.addEventListener('activate', (event) => {
  event.waitUntil(dropOld().then(() => worker.clients.claim()))
})

/** All but this build's and that of the one before it, the newest last. */
async function dropOld(): Promise<void> {
  const others = (await caches.keys()).filter((name) => name.startsWith(PAGES) && name !== HERE)
  for (const name of others.slice(0, -1)) await caches.delete(name)
}

worker.addEventListener('fetch', (event) => {
  const { request } = event
  const { origin, pathname } = new URL(request.url)
  if (request.method !== 'GET' || origin !== location.origin) return
  if (request.mode === 'navigate') {
    if (!SERVERS_OWN.some((start) => pathname.startsWith(start))) event.respondWith(page(request))
  } else if (FILES.includes(pathname) || pathname.startsWith('/assets/')) event.respondWith(file(request))
  else if (pathname.startsWith('/api/photos/')) event.respondWith(photo(request))
})

async function page(request: Request): Promise<Response> {
  const kept = await caches.match(PAGE, { cacheName: HERE })
  if (!kept) return fetch(request)
  const silence = new Promise<Response>((resolve) => setTimeout(() => resolve(kept), SILENT_MS))
  return Promise.race([fetch(request).catch(() => kept), silence])
}

const file = async (request: Request): Promise<Response> => (await caches.match(request)) ?? fetch(request)

/** By hash: what was seen once is the same for good. Who may see it the server says each time it answers at all. */
async function photo(request: Request): Promise<Response> {
  const cache = await caches.open(PHOTOS)
  try {
    const answer = await fetch(request)
    if (answer.ok) {
      await cache.put(request, answer.clone())
      const all = await cache.keys()
      for (const old of all.slice(0, -MOST_PHOTOS)) await cache.delete(old)
    }
    return answer
  } catch (silence) {
    const kept = await cache.match(request)
    if (kept) return kept
    throw silence
  }
}
