/** The house rules, kept over every file of the repository; and each rule shown to notice a breach. */
import { describe, expect, test } from 'vitest'
import { repositoryFiles } from './files'
import * as rules from './rules'

type Rule = (files: rules.SourceFile[]) => string[]

const apart = (...parts: string[]) => parts.join('')

interface Case {
  rule: Rule
  says: string
  bad: [path: string, text: string][]
  good: [path: string, text: string][]
}

const cases: Case[] = [
  {
    rule: rules.sharedIsPure,
    says: 'shared/ imports nothing but itself and plain packages',
    bad: [
      ['shared/a.ts', "import { readFileSync } from 'node:fs'"],
      ['shared/job/a.ts', "import type { Desk } from '../../server/desk.ts'"],
      ['shared/a.ts', "export * from '../web/replica'"],
      ['shared/a.ts', "import {\n  Hono,\n} from 'hono'"],
      ['shared/a.ts', "import 'solid-js/store'"],
      ['shared/a.ts', "const x = await import('drizzle-orm')"],
    ],
    good: [
      ['shared/job/a.ts', "import { b } from '../units/b.ts'"],
      ['server/a.ts', "import { readFileSync } from 'node:fs'"],
    ],
  },
  {
    rule: rules.sharedHasNoClock,
    says: 'shared/ has no clock and no chance',
    bad: [
      ['shared/a.ts', 'const now = Date.now()'],
      ['shared/a.ts', 'const now = new Date()'],
      ['shared/a.ts', 'Math.random()'],
    ],
    good: [
      ['shared/a.ts', 'new Date(at).toISOString()'],
      ['server/a.ts', 'Date.now()'],
    ],
  },
  {
    rule: rules.onlyFormatWritesDates,
    says: 'only shared/format writes dates, times and numbers for people',
    bad: [
      ['web/a.tsx', "const HOUR = new Intl.DateTimeFormat('en-GB', { hour: '2-digit' })"],
      ['web/a.ts', "new Intl.Collator('en', { numeric: true })"],
      ['server/a.ts', 'size.toLocaleString()'],
      ['seed/a.ts', 'new Date(at).getHours() === 12'],
      ['shared/job/a.ts', "const locale = 'en-GB'"],
      ['web/a.ts', 'new Date(now).toDateString() === today'],
    ],
    good: [
      ['shared/format/format.ts', "new Intl.DateTimeFormat('en-GB')"],
      ['web/format.ts', 'const { timeZone } = Intl.DateTimeFormat().resolvedOptions()'],
      ['web/a.ts', 'new Date(at).toISOString()'],
      ['tests/a.ts', "const settings = { locale: 'en-GB' }"],
    ],
  },
  {
    rule: rules.screensWriteNumbersByFormat,
    says: 'a screen writes lengths, torques, angles and shares by the shop’s format',
    bad: [
      ['web/a.tsx', '{row.friction?.low.toFixed(2)}'],
      ['web/a.ts', apart('const words = `$', '{torqueNm} N·m is no torque`')],
      ['web/a.tsx', '<dd>{length()} mm</dd>'],
      ['web/a.tsx', '± {shop().percent[cls]} %'],
      ['web/a.ts', apart('return `more than $', '{overshootDeg}° too far`')],
      ['web/drawings/a.tsx', '<text>{props.adapterMm}</text>'],
    ],
    good: [
      ['web/a.ts', apart('`$', '{format.torque(torqueNm, unit)} N·m`')],
      ['web/a.tsx', apart('<Bar minNm={band.minNm} style={{ width: `$', '{share()}%` }} />')],
      ['web/a.tsx', '{props.position}. {joints().length} joints'],
      ['web/drawings/a.tsx', apart('const x = `$', '{at.toFixed(2)}%`')],
      ['shared/a.ts', 'Number(left.toFixed(3))'],
    ],
  },
  {
    rule: rules.serverAndWebAreApart,
    says: 'server/ and web/ never import each other',
    bad: [
      ['web/a.ts', "import type { App } from '../server/app.ts'"],
      ['server/pages/a.ts', "import { Board } from '../../web/board.tsx'"],
    ],
    good: [['web/pages/a.ts', "import { b } from '../../shared/b.ts'"]],
  },
  {
    rule: rules.serverKnowsNoSeed,
    says: 'server/ never imports the seed',
    bad: [['server/a.ts', "import type { ShopClock } from '../seed/clock'"]],
    good: [['seed/a.ts', "import { openShop } from '../server/open-shop'"]],
  },
  {
    rule: rules.noImportCircles,
    says: 'imports run one way, types included',
    bad: [['shared/a.ts', "export type { B } from './a'"]],
    good: [
      ['shared/a.ts', "import type { B } from './b'"],
      ['web/a.ts', "const later = () => import('./a')"],
    ],
  },
  {
    rule: rules.webRoomsImportDownwards,
    says: 'a room of web/ imports only the rooms below it',
    bad: [
      ['web/ui/Photo.tsx', "import { useLive } from '../live/live'"],
      ['web/drawings/Strip.tsx', "import type { Session } from '../live/session'"],
      ['web/live/a.ts', "import { b } from '../job/b'"],
      ['web/frame/a.tsx', "const page = lazy(() => import('../pages/board'))"],
      ['web/job/a.tsx', "import '../pages/audit/audit.css'"],
      ['web/job/a.css', "@import '../pages/audit/audit.css';"],
      ['web/attic/a.ts', "import { b } from '../ui/b'"],
    ],
    good: [
      ['web/app.tsx', "const Board = lazy(() => import('./pages/board'))"],
      ['web/pages/board/a.tsx', "import { useJob } from '../../job/scope'"],
      ['web/job/a.tsx', "import { Button } from '../ui/Button'"],
      ['web/ui/a.tsx', "import { format } from '../format'"],
    ],
  },
  {
    rule: rules.pagesAreApart,
    says: 'no page imports another page',
    bad: [
      ['web/pages/audit/a.tsx', "import type { StepView } from '../engine/step-view'"],
      ['web/pages/record/index.tsx', "import '../audit/audit.css'"],
      ['web/pages/record/a.css', "@import url('../audit/audit.css');"],
      ['web/pages/shop/draft/a.ts', "const b = import('../../board/b')"],
    ],
    good: [
      ['web/pages/shop/draft/a.ts', "import { b } from '../sheet/b'"],
      ['web/pages/audit/a.tsx', "import { useJob } from '../../job/scope'"],
    ],
  },
  {
    rule: rules.controlsComeFromUi,
    says: 'forms, selects, dialogs and ticking clocks come from web/ui',
    bad: [
      ['web/pages/a.tsx', '<form onSubmit={send}>'],
      ['web/job/a.tsx', '<select'],
      ['web/frame/a.tsx', '<dialog open>'],
      ['web/pages/a.ts', 'const timer = setInterval(tick, 1000)'],
    ],
    good: [
      ['web/ui/Form.tsx', '<form {...rest} onSubmit={submit}>'],
      ['web/ui/clock.tsx', 'setInterval(tick, everyMs)'],
      ['web/live/demo.ts', 'setInterval(askAgain, 5000)'],
      ['web/pages/a.tsx', '<Form onSubmit={send}>\n<Select\n<FormDialog'],
      ['server/a.ts', 'setInterval(sweep, 1000)'],
    ],
  },
  {
    rule: rules.zodStaysInSchemas,
    says: 'zod is imported only by schema.ts in shared/, and web/ takes only types from there',
    bad: [
      ['server/a.ts', "import { z } from 'zod'"],
      ['shared/job/decide.ts', "import * as z from 'zod/mini'"],
      ['web/a.ts', "import { Command } from '../shared/job/schema.ts'"],
      ['web/a.ts', "import { type Command } from '../shared/job/schema'"],
    ],
    good: [
      ['shared/job/schema.ts', "import { z } from 'zod'"],
      ['web/a.ts', "import type { Command } from '../shared/job/schema.ts'"],
      ['server/a.ts', "import { zValidator } from '@hono/zod-validator'"],
    ],
  },
  {
    rule: rules.firstPageLoadsNoRules,
    says: 'the first page loads neither rules nor formulas',
    bad: [
      ['web/main.tsx', "import { standingOf } from '../shared/job/verdicts'"],
      ['web/pages/board/index.tsx', "import { summarise } from '../../../shared/job/summary'"],
      ['web/pages/board/index.tsx', "export { thread } from '../../../shared/fastener'"],
    ],
    good: [
      ['web/main.tsx', "const page = () => import('../shared/job/verdicts')"],
      ['web/main.tsx', "import type { JobSummary } from '../shared/job/summary'"],
      ['web/main.tsx', "import { reasonSentence } from '../shared/job/reason'"],
      ['web/pages/bench/index.tsx', "import { decide } from '../../../shared/job/decide'"],
    ],
  },
  {
    rule: rules.nothingIsPutOff,
    says: 'nothing is put off, no check switched off, no test left out',
    bad: [
      ['web/a.ts', apart('// TO', 'DO later')],
      ['web/a.css', apart('/* FIX', 'ME */')],
      ['web/a.ts', apart('// @ts-', 'ignore')],
      ['tests/a.test.ts', apart('test.sk', "ip('a', () => {})")],
      ['tests/a.test.ts', apart('describe.concurrent.on', "ly('a', () => {})")],
    ],
    good: [['tests/a.test.ts', "test.each([1])('only %i', () => {})"]],
  },
  {
    rule: rules.noMachinePaths,
    says: 'no file names a path of one machine',
    bad: [
      ['README.md', apart('see /wo', 'rk/shared/x')],
      ['a.json', apart('"/ro', 'ot/x"')],
      ['tests/a.ts', apart("'/ho", "me/ana/x'")],
      ['tests/a.ts', apart("'/tm", "p/x'")],
    ],
    good: [['server/a.ts', "'./work/x', 'https://example.org/work/x', '/api/root/x'"]],
  },
  {
    rule: rules.filesFitOneSitting,
    says: `no source file is longer than ${rules.longest} lines`,
    bad: [['web/a.tsx', 'x\n'.repeat(rules.longest + 1)]],
    good: [
      ['web/a.tsx', 'x\n'.repeat(rules.longest)],
      ['tests/a.ts', 'x\n'.repeat(rules.longest + 1)],
    ],
  },
  {
    rule: rules.topLevelIsKnown,
    says: 'every entry at the top is a known one',
    bad: [
      ['notes.txt', ''],
      ['scripts/a.sh', ''],
    ],
    good: [['server/scripts/a.ts', '']],
  },
  {
    rule: rules.lockNamesNoRegistry,
    says: 'package-lock.json names no registry',
    bad: [['package-lock.json', '  "resolved": "https://registry.example/x.tgz",']],
    good: [['package-lock.json', '  "integrity": "sha512-x",']],
  },
  {
    rule: rules.sheetsStandInLayers,
    says: 'every style stands in a layer',
    bad: [
      ['web/pages/a.css', '.a {\n  color: red;\n}'],
      ['web/pages/a.css', '@layer pages {\n  .a {\n  }\n}\n@media print {\n  .a {\n  }\n}'],
      ['web/pages/a.css', '@layer page {\n}'],
    ],
    good: [
      [
        'web/pages/a.css',
        '/* A page. */\n@layer pages {\n  .a {\n    color: red;\n  }\n}\n@layer print {\n}',
      ],
      ['web/styles/a.css', '@layer reset, base;\n@import "./b.css";\n@font-face {\n  font-weight: 500;\n}'],
    ],
  },
  {
    rule: rules.widthsAreBreakpoints,
    says: 'a page changes at one of three widths',
    bad: [
      ['web/a.css', '@media (max-width: 44rem) {\n}'],
      ['web/a.css', '@media screen and (width <= 48rem) {\n}'],
      ['web/a.css', '@media (44rem < width <= 60rem) {\n}'],
      ['web/a.css', '@container rows (inline-size <= 30rem) {\n}'],
    ],
    good: [
      ['web/a.css', '@media screen and (width > 44rem) and (width <= 60rem) {\n}'],
      [
        'web/a.css',
        '/* @media (width <= 1px) { */\n@media (prefers-color-scheme: dark) {\n  a {\n    max-width: 3rem;\n  }\n}',
      ],
    ],
  },
  {
    rule: rules.scalesAreShort,
    says: 'at most twelve tokens each for space and for text',
    bad: [
      ['web/styles/tokens.css', Array.from({ length: 13 }, (_, n) => `  --s${n + 1}: ${n}rem;`).join('\n')],
    ],
    good: [
      ['web/styles/tokens.css', Array.from({ length: 12 }, (_, n) => `  --s${n + 1}: ${n}rem;`).join('\n')],
    ],
  },
  {
    rule: rules.sheetsUseTokens,
    says: 'margins, paddings, gaps and letters go by tokens',
    bad: [
      ['web/pages/a.css', '.a {\n  padding: 0 13px;\n}'],
      ['web/job/a.css', '.a {\n  margin-inline-start: -0.5rem;\n}'],
      ['web/pages/a.css', '.a {\n  column-gap: clamp(1rem, 2vw, 2rem);\n}'],
      ['web/pages/a.css', '.a {\n  font: 500 14px / 1.2 serif;\n}'],
      ['web/pages/a.css', '@media print {\n  .a {\n    font-size: 9pt;\n  }\n}'],
    ],
    good: [
      [
        'web/pages/a.css',
        '.a {\n  padding: 0 var(--s4);\n  font-size: var(--small);\n  margin: 0 auto;\n  width: 3rem;\n}',
      ],
      ['web/pages/a.css', '.a {\n  gap: calc(2 * var(--m)) 1ch;\n}\n.font-3px:hover {\n  color: red;\n}'],
      ['web/styles/tokens.css', ':root {\n  font-size: 10pt;\n}'],
    ],
  },
]

const everything = repositoryFiles()

test('the rules are given the whole repository', () => {
  const paths = everything.map(({ path }) => path)
  expect(paths).toContain('package-lock.json')
  expect(paths).toContain('tests/house/tidy.test.ts')
  expect(paths).toContain('server/setup/run.mjs')
  expect(paths.filter((path) => path.includes('node_modules/'))).toEqual([])
})

test('a circle is noticed through several files, and named once', () => {
  const files = [
    { path: 'web/a.ts', text: "import { b } from './b'\nimport { c } from './c'" },
    { path: 'web/b.ts', text: "import type { C } from './c'" },
    { path: 'web/c/index.tsx', text: "export * from '../b'" },
    { path: 'web/c.ts', text: "import { d } from './d'" },
    { path: 'web/d.ts', text: "import type { B } from './b'" },
  ]
  expect(rules.noImportCircles(files)).toEqual(['web/b.ts → web/c.ts → web/d.ts → web/b.ts'])
  expect(rules.noImportCircles(files.slice(0, 2))).toEqual([])
})

describe.each(cases)('$says', ({ rule, bad, good }) => {
  test('holds here', () => {
    expect(rule(everything)).toEqual([])
  })
  test.each(bad)('notices a breach in %s: %s', (path, text) => {
    expect(rule([{ path, text }])).toHaveLength(1)
  })
  test.each(good)('leaves alone %s: %s', (path, text) => {
    expect(rule([{ path, text }])).toEqual([])
  })
})
