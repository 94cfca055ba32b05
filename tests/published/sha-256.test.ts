/**
 * The hash of the chain against published examples of SHA-256: the messages of FIPS 180-4 (its examples
 * stand with NIST, "Cryptographic Standards and Guidelines: Example Values", SHA256.pdf) and of NIST's
 * FIPS 180-2 appendix B. Messages and digests are written here from memory; each digest was compared with
 * what GNU `sha256sum` says.
 */
import { expect, test } from 'vitest'
import { sha256Hex } from '../../server/store'

const examples: [string, string, string][] = [
  ['nothing', '', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ['"abc", one block', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'the message of 448 bits, two blocks',
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  [
    'the message of 896 bits',
    'abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu',
    'cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1',
  ],
  [
    '"a" a million times',
    'a'.repeat(1_000_000),
    'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0',
  ],
]

test.each(examples)('SHA-256 of %s', (_name, message, digest) => {
  expect(sha256Hex(message)).toBe(digest)
  expect(sha256Hex(Buffer.from(message, 'utf8'))).toBe(digest)
})

test('several parts are hashed as one message, in their order', () => {
  expect(sha256Hex('a', Buffer.from('b'), 'c')).toBe(sha256Hex('abc'))
  expect(sha256Hex('b', 'a', 'c')).not.toBe(sha256Hex('abc'))
})

test('a text is hashed as UTF-8', () => {
  expect(sha256Hex('é')).toBe(sha256Hex(Uint8Array.from([0xc3, 0xa9])))
})
