/** The small judgements of the setup: is this Node new enough, are the packages there, what did the tests say. */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { COMMANDS, onlyAsked } from '../../server/setup/commands.mjs'
import { installedMatchesLock } from '../../server/setup/install.mjs'
import { nodeTooOld } from '../../server/setup/node-version.mjs'
import { inRepo } from '../../server/setup/places.mjs'
import { countTests } from '../../server/setup/testing.mjs'

describe('the version of Node', () => {
  test.each(['20.19.0', '20.20.2', '22.0.0', '26.1.0'])('%s will do', (version) => {
    expect(nodeTooOld(version)).toBeUndefined()
  })
  test.each(['20.18.3', '18.20.0', '9.9.9'])('%s is too old, and the sentence says what to do', (version) => {
    expect(nodeTooOld(version)).toMatch(new RegExp(`This is Node ${version}; .* 20\\.19 or newer.*Install`))
  })
  test('is the one package.json asks for', () => {
    expect(JSON.parse(readFileSync(inRepo('package.json'), 'utf8')).engines.node).toBe('>=20.19')
  })
})

describe('installed packages against the lock', () => {
  const lock = {
    packages: {
      '': {},
      'node_modules/a': { version: '1.0.0' },
      'node_modules/a-win32': { version: '1.0.0', optional: true },
    },
  }
  const installed = (packages: Record<string, { version: string }>) =>
    installedMatchesLock(lock, { packages })

  test('all there is a match, with or without the optional ones', () => {
    expect(installed({ 'node_modules/a': { version: '1.0.0' } })).toBe(true)
    expect(
      installed({ 'node_modules/a': { version: '1.0.0' }, 'node_modules/a-win32': { version: '1.0.0' } }),
    ).toBe(true)
  })
  test('one missing or of another version is none', () => {
    expect(installed({})).toBe(false)
    expect(installed({ 'node_modules/a': { version: '1.0.1' } })).toBe(false)
    expect(
      installed({ 'node_modules/a': { version: '1.0.0' }, 'node_modules/a-win32': { version: '2.0.0' } }),
    ).toBe(false)
  })
})

describe('what the tests said', () => {
  const file = (status: string, ...assertions: string[]) => ({
    status,
    assertionResults: assertions.map((each) => ({ status: each })),
  })

  test('passed and failed are counted as vitest counts them', () => {
    const report = { numPassedTests: 3, numFailedTests: 1, testResults: [file('failed', 'failed', 'passed')] }
    expect(countTests(report, 1)).toEqual({ passed: 3, failed: 1 })
  })
  test('a test file that could not be read counts as one failed', () => {
    const report = {
      numPassedTests: 3,
      numFailedTests: 0,
      testResults: [file('passed', 'passed'), file('failed')],
    }
    expect(countTests(report, 1)).toEqual({ passed: 3, failed: 1 })
  })
  test('no tests at all, no report, or a bad ending without a named failure is one failed', () => {
    expect(countTests({ numPassedTests: 0, numFailedTests: 0, testResults: [] }, 0)).toEqual({
      passed: 0,
      failed: 1,
    })
    expect(countTests(undefined, 1)).toEqual({ passed: 0, failed: 1 })
    const unhandled = { numPassedTests: 3, numFailedTests: 0, testResults: [file('passed', 'passed')] }
    expect(countTests(unhandled, 1)).toEqual({ passed: 3, failed: 1 })
    expect(countTests(unhandled, 0)).toEqual({ passed: 3, failed: 0 })
  })
})

test('an unknown command is answered with the known ones, on stderr, and exit code 2', () => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [inRepo('server/setup/run.mjs'), 'toString'],
    {
      encoding: 'utf8',
      timeout: 20_000,
    },
  )
  expect({ status, stdout, stderr }).toEqual({
    status: 2,
    stdout: '',
    stderr:
      'Say what to do: demo, start, backup, restore, pin, rebuild, verify, bench, crowd, keep-shop, sim, pictures, check, mutate, test.\n',
  })
})

describe('[BX12] words after a command', () => {
  const { scripts, version } = JSON.parse(readFileSync(inRepo('package.json'), 'utf8')) as {
    scripts: Record<string, string>
    version: string
  }
  const names = Object.values(scripts).map((line) => line.split(' ').at(-1) ?? '')

  test('every command that npm knows has help, says its version, and refuses what it does not know', () => {
    expect(names.sort()).toEqual(Object.keys(COMMANDS).sort())
    for (const name of names) {
      expect(onlyAsked(name, ['--help'])).toMatch(new RegExp(`^npm (run )?${name}\\b.*\n[A-Z].*\\.\n`))
      expect(onlyAsked(name, ['--version'])).toBe(`Paintmark ${version}\n`)
      expect(onlyAsked(name, [])).toBeUndefined()
      if (name !== 'test') expect(() => onlyAsked(name, ['--no-such'])).toThrow(/does not know --no-such\./)
    }
  })

  test('what it takes, it takes; one word more it does not', () => {
    for (const [name, ...words] of [
      ['backup', 'folder'],
      ['restore', 'folder', '--without-secrets'],
      ['pin', 'Ana', 'Maria', 'Lind', '--all-anew'],
      ['bench', 'commands', 'pages', '--json'],
      ['bench', '--spec=file', '-v'],
      ['test', 'tests/shared', '--reporter=dot'],
    ] as const)
      expect(onlyAsked(name, words)).toBeUndefined()
    expect(() => onlyAsked('start', ['now'])).toThrow(/^npm start does not take "now"\./)
    expect(() => onlyAsked('backup', ['one', 'two'])).toThrow(/^npm run backup does not take "two"\./)
  })
})
