/**
 * [WI10] The wire as earlier versions published it, each under its number: what a page of then sends passes today, and what a
 * page of today sends to a server of then passes there.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { brotliDecompressSync } from 'node:zlib'
import { v7 } from 'uuid'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { commandFor, PROTOCOL_VERSION, understands } from '../../shared/protocol'
import { publishedSchema } from '../../shared/schema'
import { openJob, openShop } from '../shop/yard'

type Schema = { [keyword: string]: unknown }
interface Wire {
  protocol: number
  job: Record<string, Schema>
  shop: Record<string, Schema>
}

const folder = join(import.meta.dirname, 'old-protocols')
const wires = readdirSync(folder).map(
  (name) => JSON.parse(brotliDecompressSync(readFileSync(join(folder, name))).toString()) as Wire,
)
const today = publishedSchema()
const now: Wire = {
  protocol: today.protocol,
  job: today.job.commands as Wire['job'],
  shop: today.shop.commands as Wire['shop'],
}

/** Where something that passes `old` would not pass `next`. Keywords it does not know must be the same. */
function narrower(old: Schema, next: Schema | undefined, path: string): string[] {
  if (!next) return [`${path} is gone`]
  return [...new Set([...Object.keys(old), ...Object.keys(next)])].flatMap((keyword) => {
    const [a, b] = [old[keyword], next[keyword]]
    const at = `${path} ${keyword}`
    const unless = (holds: boolean) => (holds ? [] : [at])
    switch (keyword) {
      case '$schema':
      case 'description':
        return []
      case 'minimum':
      case 'exclusiveMinimum':
      case 'minLength':
      case 'minItems':
        return unless(b === undefined || (a !== undefined && Number(b) <= Number(a)))
      case 'maximum':
      case 'exclusiveMaximum':
      case 'maxLength':
      case 'maxItems':
        return unless(b === undefined || (a !== undefined && Number(b) >= Number(a)))
      case 'required':
        return unless(((b ?? []) as string[]).every((name) => ((a ?? []) as string[]).includes(name)))
      case 'enum':
        return unless(((a ?? []) as string[]).every((value) => ((b ?? []) as string[]).includes(value)))
      case 'properties':
        return Object.entries((a ?? {}) as Record<string, Schema>).flatMap(([name, schema]) =>
          narrower(schema, (b as Record<string, Schema> | undefined)?.[name], `${path}/${name}`),
        )
      case 'items':
        return narrower(a as Schema, b as Schema | undefined, `${path}/items`)
      case 'oneOf':
      case 'anyOf':
        return ((a ?? []) as Schema[]).flatMap((one, index) =>
          unless(((b ?? []) as Schema[]).some((other) => narrower(one, other, '').length === 0)).map(
            (line) => `${line} ${index}`,
          ),
        )
      default:
        return unless(JSON.stringify(a) === JSON.stringify(b))
    }
  })
}

const both = ['job', 'shop'] as const

test('the version before this one is kept here, and today’s wire fits itself', () => {
  expect(wires.map(({ protocol }) => protocol)).toContain(PROTOCOL_VERSION - 1)
  for (const stream of both)
    for (const [type, schema] of Object.entries(now[stream]))
      expect(narrower(schema, schema, type)).toEqual([])
})

test('what is narrower is named: a field gone, one more required, a word less, a lower bound', () => {
  const old = now.job.TakeReading as { properties: Record<string, Schema>; required: string[] }
  const { how, ...left } = old.properties
  const { enum: ways } = how as { enum: string[] }
  expect(narrower(old, { ...old, properties: left }, 'T')).toEqual(['T/how is gone'])
  expect(narrower(old, { ...old, required: [...old.required, 'value'] }, 'T')).toEqual(['T required'])
  expect(narrower(how as Schema, { ...how, enum: ways.slice(1) }, 'T')).toEqual(['T enum'])
  expect(narrower(old.properties.pass as Schema, { ...old.properties.pass, maximum: 3 }, 'T')).toEqual([
    'T maximum',
  ])
})

describe.each(
  wires.filter(({ protocol }) => protocol < PROTOCOL_VERSION && understands(PROTOCOL_VERSION, protocol)),
)('version $protocol', (wire) => {
  test('every command of it passes today', () => {
    for (const stream of both)
      for (const [type, schema] of Object.entries(wire[stream]))
        expect(narrower(schema, now[stream][type], type)).toEqual([])
  })

  test('today’s commands, with all that stands in a head, pass there as they are sent there, and only so', () => {
    const head = {
      commandId: v7(),
      signInId: v7(),
      doneAt: 1_800_000_000_000,
      clockOffsetMs: -250,
      entryNumber: 7,
    }
    const commands = [
      // Without the plan: the patterns of its ids are Unicode's, which zod does not read as such.
      ...openShop.filter(({ type }) => type !== 'AddPlan').map((command) => ['shop', command] as const),
      ...openJob().map((command) => ['job', command] as const),
      ['job', { type: 'ClaimStep', stepId: 'S1' }] as const,
      ['job', { type: 'AddNote', text: 'dry' }] as const,
    ]
    for (const [stream, command] of commands) {
      const schema = z.fromJSONSchema(wire[stream][command.type] as Parameters<typeof z.fromJSONSchema>[0])
      const sent = { ...head, ...command }
      const passes = (message: object) => schema.safeParse(message).success
      expect([command.type, passes(commandFor(wire.protocol, sent)), passes(sent)]).toEqual([
        command.type,
        true,
        false,
      ])
      expect(commandFor(PROTOCOL_VERSION, sent)).toBe(sent)
    }
  })
})
