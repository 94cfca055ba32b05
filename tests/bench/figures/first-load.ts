/**
 * The board's first load, from the build's manifest: what index.html and the board's page name, with all they
 * import in turn. Scripts and styles gzipped as any server would; fonts are packed already.
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { repoFolder } from '../../../server/repo-folder'
import type { Figure } from './figure'

interface Chunk {
  file: string
  imports?: string[]
  css?: string[]
  assets?: string[]
}

const BOARD = 'pages/board/index.tsx'

export const firstLoad: Figure = {
  name: 'first-load',
  what: 'board’s first JavaScript, gzipped',
  atMostSeconds: 20,
  async run() {
    const folder = join(repoFolder(), 'dist', 'web')
    const manifest = JSON.parse(readFileSync(join(folder, '.vite', 'manifest.json'), 'utf8')) as Record<
      string,
      Chunk
    >
    const chunks = new Map<string, Chunk>()
    const follow = (name: string) => {
      const chunk = manifest[name]
      if (!chunk) throw new Error(`The manifest of dist/web has no ${name}.`)
      if (chunks.has(name)) return
      chunks.set(name, chunk)
      chunk.imports?.forEach(follow)
    }
    follow('index.html')
    follow(BOARD)
    const gzipped = (file: string) => gzipSync(readFileSync(join(folder, file)), { level: 9 }).length / 1000
    const weigh = (files: Iterable<string>, weight: (file: string) => number) =>
      [...new Set(files)].map((file) => [file, weight(file)] as const).sort((a, b) => b[1] - a[1])
    const total = (weighed: (readonly [string, number])[]) => weighed.reduce((sum, [, kB]) => sum + kB, 0)

    const all = [...chunks.values()]
    const scripts = weigh(
      all.map(({ file }) => file),
      gzipped,
    )
    const styles = weigh(
      all.flatMap(({ css }) => css ?? []),
      gzipped,
    )
    // Letters beyond ASCII are a file of their own, fetched only when a name on the page needs it.
    const fonts = weigh(
      all
        .flatMap(({ assets }) => assets ?? [])
        .filter((file) => /\.woff2$/.test(file) && !/-letters-/.test(file)),
      (file) => readFileSync(join(folder, file)).length / 1000,
    )
    const listed = (weighed: (readonly [string, number])[]) =>
      weighed.map(([file, kB]) => `${file.replace('assets/', '')} ${kB.toFixed(1)}`).join(', ')
    return [
      {
        figure: 'first-load',
        what: 'board’s first JavaScript, gzipped',
        unit: 'kB',
        ours: total(scripts),
        goal: { by: 'ours', wants: 'at most', goal: 60, stretch: 45 },
        notes: [listed(scripts)],
      },
      {
        figure: 'first-load',
        what: 'the same with styles and fonts',
        unit: 'kB',
        ours: total(scripts) + total(styles) + total(fonts),
        goal: { by: 'ours', wants: 'at most', goal: 90, stretch: 90 },
        notes: [listed([...styles, ...fonts])],
      },
    ]
  },
}
