/**
 * Canonical JSON against the examples of RFC 8785 (A. Rundgren, B. Jordan, S. Erdtman, "JSON
 * Canonicalization Scheme", June 2020): the object of section 3.2.2, the sorting of 3.2.3, the numbers of
 * Appendix B. Written from memory of the RFC; the numbers were compared with the same table as several
 * unrelated public implementations carry it in their tests. Any other value against the package `canonicalize`.
 * What we refuse beyond the RFC stands last.
 */
import canonicalize from 'canonicalize'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { canonical, NotCanonical } from '../../server/store'

const backslash = String.fromCharCode(0x5c)

test('RFC 8785, 3.2.2: literals, numbers and text of the example', () => {
  const given = JSON.parse(
    String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`,
  )
  expect(canonical(given)).toBe(
    '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
      String.raw`"string":"€$\u000f\nA'B\"\\\\\"/"}`,
  )
})

test('RFC 8785, 3.2.3: names are sorted by their UTF-16 units, not by character', () => {
  const given = JSON.parse(String.raw`{
    "\u20ac": "Euro Sign",
    "\r": "Carriage Return",
    "\ufb33": "Hebrew Letter Dalet With Dagesh",
    "1": "One",
    "\ud83d\ude00": "Emoji: Grinning Face",
    "\u0080": "Control",
    "\u00f6": "Latin Small Letter O With Diaeresis"
  }`)
  const text = canonical(given)
  expect(Object.values(JSON.parse(text.replace('"1":', '"one":')))).toEqual([
    'Carriage Return',
    'One',
    'Control',
    'Latin Small Letter O With Diaeresis',
    'Euro Sign',
    'Emoji: Grinning Face',
    'Hebrew Letter Dalet With Dagesh',
  ])
  expect(text.startsWith(`{"${backslash}r":"Carriage Return","1":"One","\u0080":"Control"`)).toBe(true)
})

describe('RFC 8785, Appendix B: numbers by their IEEE 754 bits', () => {
  const double = (bits: string) => Buffer.from(bits, 'hex').readDoubleBE()

  test.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('%s is %s', (bits, text) => {
    expect(canonical(double(bits))).toBe(text)
    expect(canonical({ n: [double(bits)] })).toBe(`{"n":[${text}]}`)
  })

  test.each([['7fffffffffffffff'], ['7ff0000000000000']])('%s is an error', (bits) => {
    expect(() => canonical(double(bits))).toThrow(NotCanonical)
  })
})

test('any value that JSON holds: as the package canonicalize writes it', () => {
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 6, stringUnit: 'grapheme' }), (value) => {
      expect(canonical(value)).toBe(canonicalize(value))
    }),
  )
})

describe('what would come back as something else is refused, and its place named', () => {
  test.each<[string, unknown, string]>([
    ['undefined', undefined, 'undefined (at the top)'],
    ['undefined in a list', { a: [1, undefined] }, 'undefined (at /a/1)'],
    ['a hole in a list', { a: new Array(1) }, 'undefined (at /a/0)'],
    ['half a surrogate pair (RFC 8785, 3.2.2.2)', { a: 'x\ud800' }, 'half a surrogate pair (at /a)'],
    ['half a pair in a name', { a: { '\udc00': 1 } }, 'half a surrogate pair (at /a)'],
    ['a function', { a: () => 1 }, 'a function (at /a)'],
    ['a symbol', { a: Symbol('s') }, 'a symbol (at /a)'],
    ['a bigint', { a: 1n }, 'a bigint (at /a)'],
    ['a date', { a: new Date(0) }, 'a Date instead of plain data (at /a)'],
    ['a set', { a: new Set([1]) }, 'a Set instead of plain data (at /a)'],
    ['an object that writes itself', { a: { toJSON: () => 1 } }, 'writes itself (at /a)'],
  ])('%s', (_name, value, where) => {
    expect(() => canonical(value)).toThrow(NotCanonical)
    expect(() => canonical(value)).toThrow(where)
  })

  test('an absent member and an undefined one are the same; a whole pair and its look-alike pass', () => {
    expect(canonical({ b: undefined, a: null })).toBe('{"a":null}')
    expect(canonical('😀')).toBe('"😀"')
    expect(canonical(`${backslash}ud800`)).toBe(`"${backslash}${backslash}ud800"`)
  })
})
