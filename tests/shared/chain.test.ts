/** The chain's arithmetic, hashed by the browser's own SHA-256: the same heads, and the first version that differs. */
import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { seal } from '../../server/store/chain'
import { BEFORE_THE_FIRST, type ChainRow, headFault, headOfRelease, walkChain } from '../../shared/chain'
import { hashText } from '../../web/live/hash'

const nodeSha256 = async (text: string) => createHash('sha256').update(text).digest('hex')

/** Six entries as the store seals them, with letters beyond ASCII. */
function sealed(stream = 'job:a'): { stream: string; rows: ChainRow[] } {
  const events = ['', 'första', '☂', '😀', '" \\', 'last'].map((text, n) => ({
    id: `e${n}`,
    event: { type: 'Noted', text },
  }))
  const { rows } = seal(
    { stream, expectedVersion: 0, commandId: 'c', recordedAt: 1, events },
    { stream, version: 0, hash: BEFORE_THE_FIRST },
    0,
  )
  return { stream, rows: rows.map(({ version, body, hash }) => ({ version, body, hash })) }
}
const headAt = ({ rows }: { rows: ChainRow[] }, version: number) => rows[version - 1]?.hash ?? ''

describe('walking a chain', () => {
  test('[ES13] both ways of hashing come to the head the store sealed, at every version', async () => {
    const chain = sealed()
    for (let version = 1; version <= 6; version++)
      for (const hash of [hashText, nodeSha256])
        expect(await walkChain(chain, version, headAt(chain, version), hash)).toEqual({
          whole: true,
          version,
          head: headAt(chain, version),
        })
  })
  test('the first hash is that of 64 zeros and the text, as sha256sum says it', async () => {
    const row = { version: 1, body: '{"stream":"job:a","version":1}', hash: '' }
    // printf %s%s 000…0 '{"stream":"job:a","version":1}' | sha256sum
    row.hash = '6c5b7a4831e1c1fe86fe674c66168d882dab702e04df79a44d0bab48809dc7a1'
    const walked = await walkChain({ stream: 'job:a', rows: [row] }, 1, row.hash, hashText)
    expect(walked).toEqual({ whole: true, version: 1, head: row.hash })
  })
  test('a changed text, a changed hash, a missing and a misplaced entry are named by their version', async () => {
    const walk = async (change: (rows: ChainRow[]) => void) => {
      const chain = sealed()
      const head = headAt(chain, 6)
      change(chain.rows)
      return walkChain(chain, 6, head, hashText)
    }
    const row = (rows: ChainRow[], version: number) => rows[version - 1] as ChainRow
    const changed = await walk((rows) => {
      row(rows, 3).body = row(rows, 3).body.replace('☂', '☃')
    })
    expect(changed).toMatchObject({ whole: false, version: 3 })
    const hash = await walk((rows) => {
      row(rows, 4).hash = 'f'.repeat(64)
    })
    expect(hash).toMatchObject({ whole: false, version: 4 })
    expect(await walk((rows) => void rows.splice(1, 1))).toMatchObject({ whole: false, version: 2 })
    expect(await walk((rows) => void rows.pop())).toEqual({
      whole: false,
      version: 6,
      found: 'this entry is missing',
    })
  })
  test('a whole chain of another engine, or other content with hashes that fit, is not what was written down', async () => {
    const chain = sealed()
    const head = headAt(chain, 6)
    expect(await walkChain({ ...chain, stream: 'job:b' }, 6, head, hashText)).toMatchObject({
      whole: false,
      version: 1,
      found: 'its text belongs to stream "job:a"',
    })
    const other = sealed('job:b')
    expect(await walkChain(other, 6, head, hashText)).toEqual({
      whole: false,
      version: 6,
      found: 'the head recomputed here is not the one that was written down',
    })
  })
})

test('[ES14] only a release names a head, and it must be the one before it', () => {
  expect(headFault({ type: 'Noted' }, 'a')).toBeUndefined()
  const release = { type: 'Released', number: 'E-1-F1', head: 'a'.repeat(64) }
  expect(headFault(release, 'a'.repeat(64))).toBeUndefined()
  expect(headFault(release, 'b'.repeat(64))).toMatch(/^release E-1-F1 was given on other entries/)
  expect(headFault({ type: 'Released' }, 'b'.repeat(64))).toMatch(/was given on other entries/)
  expect(headOfRelease(release)).toEqual({ number: 'E-1-F1', head: 'a'.repeat(64) })
})
