/**
 * Cuts the packaged fonts down to the characters the pages use, before Vite sees them.
 *
 * Stylesheets name `paintmark-fonts/<name>.woff2`; the cut files lie in node_modules/.cache and are made
 * again when a font or this list changes. Hinting goes (screens here are dense enough), tabular figures
 * stay. Letters beyond ASCII are a file of their own, which the browser fetches only when a name needs it.
 */
import { createHash } from 'node:crypto'
import { mkdir, readFile, stat, writeFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import subsetFont from 'subset-font'
import type { Plugin } from 'vite'

const modules = new URL('../../node_modules/', import.meta.url)
const cache = new URL('.cache/paintmark-fonts/', modules)

const codes = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, i) => String.fromCodePoint(from + i)).join('')

const ASCII = codes(0x20, 0x7e)
/** Signs our own sentences use; kept beside ASCII so that one file serves nearly every page. */
const SIGNS = '\u00a0°±²³·×–—‘’“”…→−≤≥'
const LETTERS = codes(0xc0, 0xff)

interface Cut {
  name: string
  from: string
  text: string
  features: string[]
}

const barlow = (weight: number) =>
  `@fontsource/barlow-semi-condensed/files/barlow-semi-condensed-latin-${weight}-normal.woff2`
const stencil =
  '@fontsource/big-shoulders-stencil-display/files/big-shoulders-stencil-display-latin-800-normal.woff2'

const CUTS: Cut[] = [
  ...[500, 600].flatMap((weight) => [
    { name: `text-${weight}`, from: barlow(weight), text: ASCII + SIGNS, features: ['kern', 'tnum'] },
    { name: `text-${weight}-letters`, from: barlow(weight), text: LETTERS, features: ['kern'] },
  ]),
  { name: 'stencil', from: stencil, text: `${codes(0x41, 0x5a)}0123456789- &.`, features: ['kern'] },
]

async function cut({ name, from, text, features }: Cut): Promise<void> {
  const source = await readFile(new URL(from, modules))
  const key = createHash('sha256')
    .update(source)
    .update(JSON.stringify([text, features]))
    .digest('hex')
    .slice(0, 16)
  const target = new URL(`${name}.woff2`, cache)
  const mark = new URL(`${name}.key`, cache)
  const known = await readFile(mark, 'utf8').catch(() => '')
  if (known === key && (await stat(target).catch(() => undefined))) return
  const made = await subsetFont(source, text, {
    targetFormat: 'woff2',
    keepFeatures: features,
    noHinting: true,
  })
  await mkdir(cache, { recursive: true })
  await writeFile(target, made)
  await writeFile(mark, key)
}

export function shippedFonts(): Plugin {
  return {
    name: 'paintmark-fonts',
    async config() {
      for (const one of CUTS) await cut(one)
      return { resolve: { alias: { 'paintmark-fonts': fileURLToPath(cache).replace(/\/$/, '') } } }
    },
  }
}
