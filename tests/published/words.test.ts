/** Words of lubrication, hole material and grade as people write them, labelled by somebody who never saw the vocabulary. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { holeMaterial, readLubrication, strength } from '../../shared/fastener'
import { isRefusal } from '../../shared/log'

interface Line {
  kind?: string
  text: string
  expect: 'value' | 'ask'
  class: string
}
const linesOf = (file: string) =>
  readFileSync(new URL(`data/${file}-words.jsonl`, import.meta.url), 'utf8')
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line) as Line)
    .filter(({ text }) => typeof text === 'string')

/** The labeller's classes by our entries; a class that is not here must be asked about. */
const LUBRICATION: Record<string, string> = {
  dry: 'dry',
  oil: 'oil',
  grease: 'grease',
  'moly paste': 'paste',
  'graphite paste': 'paste',
  PTFE: 'paste',
  'copper paste': 'anti_seize',
  'nickel paste': 'anti_seize',
  'aluminium paste': 'anti_seize',
  'thread locker': 'threadlocker',
  'zinc plated': 'zinc_plated',
  wax: 'wax',
  'engine oil': 'oil',
  'molybdenum disulphide paste': 'paste',
  threadlocker: 'threadlocker',
  'copper anti-seize': 'anti_seize',
}
const MATERIAL: Record<string, string> = {
  'grey cast iron': 'cast_iron',
  'cast iron': 'cast_iron',
  'ductile iron': 'ductile_iron',
  'cast aluminium': 'cast_aluminium',
  'wrought aluminium': 'wrought_aluminium',
  steel: 'steel',
  bronze: 'bronze',
  'ductile (nodular) cast iron': 'ductile_iron',
  'aluminium casting alloy': 'cast_aluminium',
}
const gradeOf = (label: string) =>
  label.replace(/^property class |^stainless /, '').replace('SAE grade', 'SAE')

const ROOMS = [
  {
    file: 'lubrication',
    count: 250,
    least: 0.55,
    wanted: (label: string) => LUBRICATION[label],
    read: (text: string) => {
      const found = readLubrication(text)
      return isRefusal(found) ? undefined : found
    },
    // “Anti-seize” of any metal is one class of friction here; their labeller calls both debatable.
    debated: ['anti-seize', 'anti-seize compound'],
  },
  {
    file: 'material',
    count: 120,
    least: 0.4,
    wanted: (label: string) => MATERIAL[label],
    read: (text: string) => {
      const found = holeMaterial(text)
      return isRefusal(found) ? undefined : found.id
    },
    debated: [],
  },
  {
    file: 'grade',
    count: 100,
    least: 0.5,
    wanted: gradeOf,
    read: (text: string) => {
      const found = strength(text)
      return isRefusal(found) ? undefined : found.grade
    },
    debated: [],
  },
]

/** The later words, all rooms in one file: a bare `grade 8` is an inch bolt’s where no thread says otherwise. */
const LATER = ROOMS.map((room) => ({
  ...room,
  ...{
    lubrication: { count: 100, least: 0.55, debated: [] },
    material: { count: 70, least: 0.5, debated: [] },
    grade: { count: 70, least: 0.75, debated: ['grade 8', 'grade 5'] },
  }[room.file as 'grade'],
  lines: linesOf('later').filter(({ kind }) => kind === room.file),
}))

describe.each([...ROOMS.map((room) => ({ ...room, lines: linesOf(room.file) })), ...LATER])(
  '$count texts of $file',
  ({ lines, count, least, wanted, read, debated }) => {
    const values = lines.filter((line) => line.expect === 'value')

    test('nothing is taken without a question that is not what the text means', () => {
      expect(lines).toHaveLength(count)
      const wrong = lines.flatMap((line) => {
        const got = read(line.text)
        const right = line.expect === 'value' ? wanted(line.class) : undefined
        return got === undefined || got === right || (debated as string[]).includes(line.text)
          ? []
          : [`${line.text} (${line.class}) → ${got}`]
      })
      expect(wrong).toEqual([])
    })
    test('what means one thing is taken, as far as the vocabulary is sure of the word', () => {
      const taken = values.filter((line) => read(line.text) !== undefined)
      expect(taken.length / values.length).toBeGreaterThan(least)
    })
  },
)
