/** Every source can be found again by its citation, or is called memory. */
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { BASIS, HOLE_MATERIALS, NUT_FACTORS, PRELOAD_SCATTER } from '../../shared/fastener'
import { HOLE_MATERIAL_TERMS, LUBRICATION_TERMS } from '../../shared/fastener/vocabulary'
import { REUSE_RULES } from './data/angles'
import { UNIFIED_FORMULA_MICROINCHES } from './data/limits'
import { CLASSES } from './data/strengths'
import { METRIC, UNIFIED_ROWS } from './data/threads'
import { SHORT_FORM } from './data/torque-tables'
import { FACTORS } from './data/torque-units'
import { VDI_TABLES } from './data/vdi2230'
import { SOURCES } from './sources'

const rows: { source: string; status?: string }[] = [
  ...Object.values(BASIS),
  ...Object.values(PRELOAD_SCATTER),
  ...NUT_FACTORS,
  ...HOLE_MATERIALS,
  ...HOLE_MATERIAL_TERMS,
  ...LUBRICATION_TERMS,
  ...METRIC,
  ...UNIFIED_ROWS,
  ...CLASSES,
  ...SHORT_FORM,
  ...FACTORS,
  ...VDI_TABLES,
  ...REUSE_RULES,
  UNIFIED_FORMULA_MICROINCHES,
]

/** Nothing outside is leant on: a definition, arithmetic, or what somebody entered. */
const OF_ITSELF = /^(?:definitions?\b|its name$|whoever entered it$|SI prefixes$|elastic springs in series)/
const names = (source: string) => SOURCES.filter(({ cited }) => source.includes(cited))

test('each source of a table is on the list, or says memory or that there is none', () => {
  expect(rows.length).toBeGreaterThan(120)
  const lost = rows.filter(
    ({ source }) =>
      names(source).length === 0 && !/\bmemory\b|\bno source\b/.test(source) && !OF_ITSELF.test(source),
  )
  expect(lost).toEqual([])
})

test('what was found names where', () => {
  const unnamed = rows.filter(({ source, status }) => status === 'found' && names(source).length === 0)
  expect(unnamed).toEqual([])
})

const DESIGNATION =
  /\b(?:ISO|DIN|EN|ASME|ASTM|VDI|NIST|NSTS|FIPS|RFC|TM|NAVEDTRA|FED-STD|NASA-STD|NASM|FAA AC|SAE J)[ -]?(?:SP )?[A-Z]?\d[\w.-]*/g
/** Names of materials, and spellings that users type. */
const NO_SOURCE = /^EN-G|^EN AC|^EN AW/

const files = ['shared', 'tests/published'].flatMap((folder) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => ({ name: `${folder}/${name}`, text: readFileSync(`${folder}/${name}`, 'utf8') })),
)

test('every designation that stands in the domain or in a check is on the list', () => {
  const unknown = files.flatMap(({ name, text }) =>
    (text.match(DESIGNATION) ?? [])
      .filter((one) => !NO_SOURCE.test(one) && !SOURCES.some(({ cited }) => one.startsWith(cited)))
      .map((one) => `${name}: ${one}`),
  )
  expect(unknown).toEqual([])
})

test('the list holds nothing that no figure rests on, and each entry can be looked for', () => {
  const others = files.filter(({ name }) => !name.startsWith('tests/published/sources'))
  const idle = SOURCES.filter(({ cited }) => !others.some(({ text }) => text.includes(cited)))
  expect(idle).toEqual([])
  for (const { kind, cited, title, edition } of SOURCES) {
    expect(title.length, cited).toBeGreaterThan(10)
    expect(edition, cited).toMatch(/\b(?:19|20)\d\d\b/)
    expect(cited, kind).toMatch(
      kind === 'standard' || kind === 'report' ? /\d|^RCSC$|^SI B|^NIST StRD$/ : /\p{L}{4}/u,
    )
  }
})
