/** The repository is found from sources, from built files and from their parts. */
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { expect, test } from 'vitest'
import { repoFolder } from '../../server/repo-folder'
import { inRepo, repo } from '../../server/setup/places.mjs'

test.each(['server/store/a.ts', 'dist/server/main.js', 'dist/server/parts/a-1.js'])('from %s', (file) => {
  expect(join(repoFolder(pathToFileURL(inRepo(file)).href), '.')).toBe(join(repo, '.').replace(/\/$/, ''))
})

test('outside of it, the sentence says where it looked and what to do', () => {
  const outside = pathToFileURL(join(tmpdir(), 'a.js')).href
  expect(() => repoFolder(outside)).toThrow(/^No folder above .* holds package.json and drizzle\/\. Run /)
})
