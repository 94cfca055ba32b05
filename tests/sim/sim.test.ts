/** The simulation as `npm test` runs it: the seeds that failed once, some more, and mutations that still apply. */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { repoFolder } from '../../server/repo-folder'
import { MUTATIONS } from './mutations.mjs'

const inRepo = (...parts: string[]) => join(repoFolder(), ...parts)
const simulate = (...args: string[]) =>
  spawnSync(process.execPath, [inRepo('dist/sim/main.js'), ...args], { encoding: 'utf8' })

const lastLine = (text: string) => text.trim().split('\n').at(-1)

test('what failed once does not again', () => {
  const seeds = JSON.parse(readFileSync(inRepo('tests/sim/seeds.json'), 'utf8')) as number[]
  const { stdout, stderr } = simulate('--kept')
  expect(lastLine(stdout), stdout + stderr).toBe(`${seeds.length} passed, 0 failed`)
})

test('a hundred and twenty mornings: nothing entered is lost, twice, out of turn or somebody else’s', () => {
  const { stdout, stderr } = simulate('120', '--from', '1001', '--first', '--processes', '1')
  expect(lastLine(stdout), stdout + stderr).toBe('120 passed, 0 failed')
})

test('a seed gives the same run', () => {
  const [once, again] = [simulate('--seed', '7'), simulate('--seed', '7')]
  expect(once.stdout).toContain('everything is put right')
  expect(again.stdout).toBe(once.stdout)
})

test('every mutation still applies, and every promise has one', () => {
  for (const { name, file, find } of MUTATIONS)
    expect(readFileSync(inRepo(file), 'utf8').split(find), name).toHaveLength(2)
  const promised = readFileSync(inRepo('shared/RULES.md'), 'utf8').match(/(?<=\*\*)SM\d+(?=\*\*)/g)
  expect([...new Set(MUTATIONS.map(({ promise }) => promise))]).toEqual(promised)
})
