/** The setup redoes work when, and only when, a source changed or something made is gone. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { filesUnder, fingerprint, isFresh, makeIfStale, readStamp } from '../../server/setup/freshness.mjs'

let root = ''
let timesMade = 0

function write(path: string, content: string) {
  mkdirSync(dirname(join(root, path)), { recursive: true })
  writeFileSync(join(root, path), content)
}

function swap(one: string, other: string) {
  const [a, b] = [one, other].map((path) => readFileSync(join(root, path), 'utf8'))
  write(one, b ?? '')
  write(other, a ?? '')
}

const stampFile = () => join(root, 'dist/.stamps/it.json')

function build(during = () => {}) {
  const what = { root, stampFile: stampFile(), sources: ['src', 'lock.json'], outFolder: 'dist/it' }
  return makeIfStale(what, () => {
    timesMade += 1
    write('dist/it/out.js', `made ${timesMade}`)
    write('dist/it/parts/a.js', '')
    during()
  })
}

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'paintmark-fresh-'))
  timesMade = 0
  write('src/a.ts', 'a')
  write('src/deep/b.ts', 'b')
  write('lock.json', '{}')
})

afterEach(() => rmSync(root, { recursive: true, force: true }))

describe('making what is stale', () => {
  test('the first time it is made, the second time it is fresh', async () => {
    expect([await build(), await build()]).toEqual(['made', 'fresh'])
    expect(timesMade).toBe(1)
  })

  test('a file touched but not changed is fresh', async () => {
    await build()
    utimesSync(join(root, 'src/a.ts'), 1, 1)
    expect(await build()).toBe('fresh')
  })

  test.each([
    ['a changed file', () => write('src/deep/b.ts', 'c')],
    ['a new file', () => write('src/deep/c.ts', '')],
    ['a file gone', () => rmSync(join(root, 'src/a.ts'))],
    ['a changed lock', () => write('lock.json', '{ }')],
    ['content swapped between two files', () => swap('src/a.ts', 'src/deep/b.ts')],
    ['something made that is gone', () => rmSync(join(root, 'dist/it/parts/a.js'))],
    ['a stamp that cannot be read', () => writeFileSync(stampFile(), '{')],
    ['a stamp that is gone', () => rmSync(stampFile())],
  ])('%s makes it stale, once', async (_what, change) => {
    await build()
    change()
    expect([await build(), await build()]).toEqual(['made', 'fresh'])
  })

  test('what lies in node_modules or dist is no source', async () => {
    await build()
    write('src/node_modules/x/index.js', '')
    write('src/dist/x.js', '')
    expect(await build()).toBe('fresh')
  })

  test('a failed run leaves no stamp behind', async () => {
    await build()
    write('src/a.ts', 'broken')
    const failing = build(() => {
      throw new Error('does not compile')
    })
    await expect(failing).rejects.toThrow('does not compile')
    expect(readStamp(stampFile())).toBeUndefined()
    expect(await build()).toBe('made')
  })

  test('a source edited during the run is stale afterwards', async () => {
    await build(() => write('src/a.ts', 'edited meanwhile'))
    expect(await build()).toBe('made')
  })

  test('making nothing is an error, not a success', async () => {
    const what = { root, stampFile: stampFile(), sources: ['src'], outFolder: 'dist/it' }
    await expect(makeIfStale(what, () => {})).rejects.toThrow('Nothing was written to dist/it')
  })
})

describe('the fingerprint', () => {
  test('does not depend on the order or repetition of sources', () => {
    expect(fingerprint(root, ['lock.json', 'src', 'src/a.ts'])).toBe(fingerprint(root, ['src', 'lock.json']))
  })

  test('a missing source is no error, and its coming is a change', () => {
    const before = fingerprint(root, ['src', 'later'])
    write('later/x.ts', '')
    expect(fingerprint(root, ['src', 'later'])).not.toBe(before)
  })

  test('the walk names files relative to the root, sorted', () => {
    expect(filesUnder(root, 'src')).toEqual(['src/a.ts', 'src/deep/b.ts'])
    expect(filesUnder(root, '.')).toEqual(['lock.json', 'src/a.ts', 'src/deep/b.ts'])
    expect(filesUnder(root, 'nowhere')).toEqual([])
  })

  test('the stamp keeps the fingerprint and every file made', async () => {
    await build()
    const sources = fingerprint(root, ['src', 'lock.json'])
    expect(JSON.parse(readFileSync(stampFile(), 'utf8'))).toEqual({
      sources,
      made: ['dist/it/out.js', 'dist/it/parts/a.js'],
    })
    expect(isFresh(root, stampFile(), sources)).toBe(true)
    expect(isFresh(root, stampFile(), 'another')).toBe(false)
  })
})
