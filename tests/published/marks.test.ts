/**
 * What the marks rest on, against published vectors. The tree: RFC 9162, section 2.1, with the reference leaves and roots of
 * the Certificate Transparency project, and the proofs of section 2.1.3 and 2.1.4 for all sizes up to eight (computed by the
 * RFC's own steps), which lead from our leaves to our roots. The signatures: RFC 8032, section 7.1, tests 1 to 3.
 */
import { createHash, createPrivateKey } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'papaparse'
import { describe, expect, test } from 'vitest'
import { signatureHolds, signingKey } from '../../server/marks/key'
import { edgeLength, makeTree } from '../../server/marks/tree'

const rowsOf = (name: string) =>
  parse<Record<string, string>>(readFileSync(join(import.meta.dirname, 'data', name), 'utf8'), {
    header: true,
    skipEmptyLines: true,
  }).data
const hex = (text: string) => Buffer.from(text, 'hex')
const sha256 = (...parts: Uint8Array[]) => {
  const hash = createHash('sha256')
  for (const part of parts) hash.update(part)
  return hash.digest()
}
const node = (left: Uint8Array, right: Uint8Array) => sha256(Uint8Array.of(1), left, right)

describe('the tree, RFC 9162', () => {
  const rows = rowsOf('merkle-rfc9162.csv')
  const of = (kind: string) => rows.filter((row) => row.kind === kind)
  const leaves = of('root')
    .slice(1)
    .map((row) => hex(row.leaf_hex_added_or_proved ?? ''))
  const treeOf = (size: number) => {
    const tree = makeTree()
    for (const leaf of leaves.slice(0, size)) tree.add(leaf)
    return tree
  }

  test.each(of('root').map((row) => [Number(row.tree_size), row.root_hex] as const))(
    'the root of %i leaves',
    (size, root) => {
      expect(treeOf(size).root()).toBe(root)
    },
  )

  test('a tree that goes on from the edge of a smaller one has the same roots', () => {
    for (let from = 0; from <= leaves.length; from++) {
      const { size, edge } = treeOf(from)
      expect(edge()).toHaveLength(edgeLength(from))
      const tree = makeTree({ size: size(), edge: edge() })
      for (let to = from; to <= leaves.length; to++) {
        expect([tree.size(), tree.root()]).toEqual([to, treeOf(to).root()])
        if (to < leaves.length) tree.add(leaves[to] as Buffer)
      }
    }
    expect(() => makeTree({ size: 3, edge: [] })).toThrow(RangeError)
  })

  test('its roots are those that inclusion proofs lead to (2.1.3.2)', () => {
    const proofs = of('inclusion')
    expect(proofs).toHaveLength(36)
    for (const { tree_size, index_or_size1, proof_hex = '' } of proofs) {
      const size = Number(tree_size)
      let fn = Number(index_or_size1)
      let sn = size - 1
      let r = sha256(Uint8Array.of(0), leaves[fn] as Buffer)
      for (const p of proof_hex.split(' ').filter(Boolean).map(hex)) {
        if (fn % 2 === 1 || fn === sn) {
          r = node(p, r)
          while (fn % 2 === 0 && fn !== 0) [fn, sn] = [fn >> 1, sn >> 1]
        } else r = node(r, p)
        ;[fn, sn] = [fn >> 1, sn >> 1]
      }
      expect(sn).toBe(0)
      expect(r.toString('hex')).toBe(treeOf(size).root())
    }
  })

  test('each root stands for the smaller ones, as consistency proofs say (2.1.4.2)', () => {
    const proofs = of('consistency')
    expect(proofs.length).toBeGreaterThanOrEqual(36)
    for (const { tree_size, index_or_size1, proof_hex = '' } of proofs) {
      const [first, second] = [Number(index_or_size1), Number(tree_size)]
      const given = proof_hex.split(' ').filter(Boolean).map(hex)
      if (first === second) {
        expect(given).toEqual([])
        continue
      }
      const isWhole = (first & (first - 1)) === 0
      const proof = isWhole ? [hex(treeOf(first).root()), ...given] : given
      let [fn, sn] = [first - 1, second - 1]
      while (fn % 2 === 1) [fn, sn] = [fn >> 1, sn >> 1]
      let [fr, sr] = [proof[0] as Buffer, proof[0] as Buffer]
      for (const c of proof.slice(1)) {
        if (fn % 2 === 1 || fn === sn) {
          fr = node(c, fr)
          sr = node(c, sr)
          while (fn % 2 === 0 && fn !== 0) [fn, sn] = [fn >> 1, sn >> 1]
        } else sr = node(sr, c)
        ;[fn, sn] = [fn >> 1, sn >> 1]
      }
      expect(sn).toBe(0)
      expect([fr.toString('hex'), sr.toString('hex')]).toEqual([treeOf(first).root(), treeOf(second).root()])
    }
  })
})

describe('the signatures, RFC 8032', () => {
  const PKCS8_ED25519 = hex('302e020100300506032b657004220420')
  test.each(rowsOf('ed25519-rfc8032.csv').map((row) => [row.id, row] as const))('%s', (_, row) => {
    const { secret_hex = '', public_hex = '', message_hex = '', signature_hex = '' } = row
    const key = signingKey(
      createPrivateKey({
        key: Buffer.concat([PKCS8_ED25519, hex(secret_hex)]),
        format: 'der',
        type: 'pkcs8',
      }),
    )
    expect(key.public).toBe(public_hex)
    expect(key.sign(hex(message_hex))).toBe(signature_hex)
    expect(signatureHolds(public_hex, hex(message_hex), signature_hex)).toBe(true)
    expect(signatureHolds(public_hex, Buffer.concat([hex(message_hex), hex('00')]), signature_hex)).toBe(
      false,
    )
  })
})
