/**
 * The built pages, at their own addresses alone. Names that carry a hash of their content may be kept for good; all else is asked for
 * again. Compressed once, at the first request, and kept in memory.
 */
import { createHash } from 'node:crypto'
import { readFile, stat } from 'node:fs/promises'
import { extname, join, normalize, sep } from 'node:path'
import { createMiddleware } from 'hono/factory'
import { html } from 'hono/html'
import { isPage } from '../../shared/pages'
import { compress, type Encoding, encodingFor } from './compress'
import type { Env } from './parts'
import { wordsPage } from './words-page'

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.webmanifest': 'application/manifest+json',
  '.txt': 'text/plain; charset=utf-8',
  '.map': 'application/json',
}
const WORTH_IT = 512
const QUALITY_ONCE = 11
/** Longer ones would keep a first visitor waiting for a few per cent. */
const QUALITY_LONG = 6
const LONG = 1024 * 1024

interface CachedFile {
  modified: number
  bytes: Buffer
  tag: string
  encoded: Map<Encoding, Promise<Buffer>>
}

export function pages(folder: string) {
  const cache = new Map<string, CachedFile>()

  async function load(file: string): Promise<CachedFile | undefined> {
    const stats = await stat(file).catch(() => undefined)
    if (!stats?.isFile()) return undefined
    const cached = cache.get(file)
    if (cached?.modified === stats.mtimeMs) return cached
    const bytes = await readFile(file)
    const tag = `"${createHash('sha256').update(bytes).digest('base64url').slice(0, 22)}"`
    const fresh = { modified: stats.mtimeMs, bytes, tag, encoded: new Map() }
    cache.set(file, fresh)
    return fresh
  }

  function encode({ bytes, encoded }: CachedFile, encoding: Encoding): Promise<Buffer> {
    const quality = bytes.byteLength > LONG ? QUALITY_LONG : QUALITY_ONCE
    const encodedBytes = encoded.get(encoding) ?? compress(bytes, encoding, quality)
    encoded.set(encoding, encodedBytes)
    return encodedBytes
  }

  return createMiddleware<Env>(async (c, next) => {
    if (c.req.method !== 'GET' && c.req.method !== 'HEAD') return next()
    const page = isPage(c.req.path)
    const path = page ? '/index.html' : normalize(safeDecode(c.req.path))
    const file = join(folder, path)
    if (!file.startsWith(folder + sep) || path.split(sep).some((part) => part.startsWith('.'))) return next()
    const built = await load(file)
    if (!built) return page ? c.html(notBuilt, 503) : next()

    const type = TYPES[extname(file)] ?? 'application/octet-stream'
    c.header('Content-Type', type)
    c.header('ETag', built.tag)
    c.header(
      'Cache-Control',
      path.startsWith('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache',
    )
    c.header('Vary', 'Accept-Encoding')
    if (c.req.header('if-none-match')?.includes(built.tag)) return c.body(null, 304)
    const worthIt = built.bytes.byteLength > WORTH_IT && !/woff2|png|icon/.test(type)
    const encoding = worthIt ? encodingFor(c.req.header('accept-encoding')) : undefined
    if (encoding) c.header('Content-Encoding', encoding)
    const bytes = encoding ? await encode(built, encoding) : built.bytes
    return c.body(new Uint8Array(bytes))
  })
}

function safeDecode(path: string): string {
  try {
    return decodeURIComponent(path)
  } catch {
    return '/.'
  }
}

const notBuilt = wordsPage(
  'The pages are not built',
  html`<p>Start the server with <code>npm start</code> or <code>npm run demo</code>, which build them.</p>`,
)
