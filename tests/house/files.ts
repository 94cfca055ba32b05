/**
 * The files the house rules are kept over: what git holds or would take in; where git is missing or
 * will not say (a copy, another owner), what lies there less what .gitignore names.
 */
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { filesUnder } from '../../server/setup/freshness.mjs'
import { repo } from '../../server/setup/places.mjs'
import type { SourceFile } from './rules'

const text = /\.(?:ts|tsx|mts|mjs|js|json|css|html|sql|md|svg|txt|yml|sh|csv)$|(?:^|\/)(?:\.\w+|LICENSE|run)$/

export function repositoryFiles(): SourceFile[] {
  return paths()
    .filter((path) => existsSync(join(repo, path)))
    .map((path) => ({ path, text: text.test(path) ? readFileSync(join(repo, path), 'utf8') : '' }))
}

function paths(): string[] {
  const args = ['ls-files', '-z', '--cached', '--others', '--exclude-standard']
  const git = spawnSync('git', args, { cwd: repo, encoding: 'utf8' })
  // A copy inside another repository that ignores it is listed as empty: walk then, too.
  if (git.status === 0 && git.stdout !== '') return git.stdout.split('\0').filter(Boolean)
  const ignored = /^(?:node_modules|dist|data|coverage)\/|\.log$/
  return filesUnder(repo, '.').filter((path) => !ignored.test(path))
}
