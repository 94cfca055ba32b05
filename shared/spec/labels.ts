/** Pass numbers as manuals print them: `Step 2:`, `2nd`, `2. Stufe`, `b)`, `(3)`, `④`, `II.`, `finally`. */
import { unitAt } from '../units'
import { alternatives, LANGUAGES, type Language } from './languages'

/** Without a number: `finally`. `dotted`: `2. `, which may be half a decimal number or number an item. */
export interface Label {
  end: number
  n?: number
  dotted?: boolean
}

const CIRCLED = '①②③④⑤⑥⑦⑧⑨'
const ROMAN = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii', 'viii']

const every = (entries: (language: Language) => string | undefined) => [
  ...new Set(LANGUAGES.flatMap((language) => alternatives(entries(language) ?? ''))),
]
const either = (words: string[]) =>
  `(?:${[...words].sort((a, b) => b.length - a.length).join('|')})(?!\\p{L})`

/** Words for first, second, … and one, two, … with their number. */
const ORDINAL = new Map<string, number>()
const COUNT = new Map<string, number>()
for (const { ordinals, counts } of LANGUAGES) {
  ordinals.forEach((forms, i) => {
    for (const form of alternatives(forms)) ORDINAL.set(form, i + 1)
  })
  counts.forEach((forms, i) => {
    for (const word of alternatives(forms)) if (!COUNT.has(word)) COUNT.set(word, i + 1)
  })
}
const STAGES = every(({ stage }) => stage)
const UNNUMBERED = every(({ unnumbered }) => unnumbered)

const AFTER = '\\s*(?:[:.)]|[-‐‑‒–—−](?=[ ]))?'
const STAGE = either(STAGES)
const NAMED = `(?:[ \\u00A0]+(?:${either([...STAGES, ...every(({ act }) => act)])}))`
const SUFFIX = either(every(({ suffix }) => suffix))
const BESIDE = `(?:${every(({ suffixBesideStage }) => suffixBesideStage).join('|')})`

type Read = (found: RegExpExecArray) => { n?: number; dotted?: boolean } | undefined

const numbered: Read = ([, digit]) => ({ n: Number(digit) })

/** Those that begin with a word; tried only where such a word stands. */
const SPELT: [RegExp, Read][] = [
  [
    new RegExp(
      `\\(?${STAGE}\\s*(?:no\\.?\\s*)?(?:(\\d{1,2})(?![.,]?\\d|[°º])|(${either([...COUNT.keys()])})|(${either(ROMAN)})|([a-h])\\b)\\)?${AFTER}`,
      'iuy',
    ),
    ([, digit, word = '', roman = '', letter]) => ({
      n: digit
        ? Number(digit)
        : (COUNT.get(word.toLowerCase()) ?? (ROMAN.indexOf(roman.toLowerCase()) + 1 || nthLetter(letter))),
    }),
  ],
  [
    new RegExp(
      `(${[...ORDINAL.keys()].join('|')})(?:ly)?(?!\\p{L})(?!\\s+(?:of\\s+a\\s+)?turn)${NAMED}?${AFTER}`,
      'iuy',
    ),
    ([, word = '']) => ({ n: ORDINAL.get(word.toLowerCase()) }),
  ],
  [new RegExp(`(?:and\\s+)?${either(UNNUMBERED)}${NAMED}?${AFTER}`, 'iuy'), () => ({})],
]
const BEGINNINGS = new Set(
  ['and', 'firstly', 'secondly', 'thirdly', ...STAGES, ...ORDINAL.keys(), ...UNNUMBERED].map(
    (word) => word.split(' ')[0] ?? '',
  ),
)
const WORD = /\(?(\p{L}+)/uy

/** Those that begin with a sign or a digit, by what they begin with. */
const SIGNED: [begins: RegExp, spelt: RegExp, read: Read][] = [
  [/\d/, new RegExp(`(\\d{1,2})${SUFFIX}(?!\\d)${NAMED}?${AFTER}`, 'iuy'), numbered],
  [/\d/, new RegExp(`([1-9])${BESIDE}${NAMED}${AFTER}`, 'iuy'), numbered],
  [/\(/, /\(([1-9])\)(?=\s)/y, numbered],
  [/[(a-h]/, /\(?([a-h])\)/y, ([, letter]) => ({ n: nthLetter(letter) })],
  [/[1-9]/, /([1-9])\.?\)/y, numbered],
  [/[1-9]/, /([1-9])[.:](?=\s+[\d+\p{L}])/uy, ([, digit]) => ({ n: Number(digit), dotted: true })],
  [/[①-⑨]/, /([①-⑨])/y, ([, circle]) => ({ n: CIRCLED.indexOf(circle ?? '') + 1 })],
  [
    /[(IV]/,
    /\(?(I{1,3}|IV|VI{0,3})[.):](?=\s*\d)/y,
    ([, roman = '']) => ({ n: ROMAN.indexOf(roman.toLowerCase()) + 1, dotted: true }),
  ],
]

export function labelAt(text: string, at: number): Label | undefined {
  const first = text[at] ?? ''
  for (const [begins, spelt, read] of SIGNED) {
    if (!begins.test(first)) continue
    const label = match(spelt, read, text, at)
    if (label) return label
  }
  WORD.lastIndex = at
  const word = WORD.exec(text)?.[1]?.toLowerCase()
  if (word === undefined || !BEGINNINGS.has(word)) return undefined
  for (const [spelt, read] of SPELT) {
    const label = match(spelt, read, text, at)
    // `Phase 5 N·m`: the number is a torque's.
    if (label && !unitAt(text, label.end + (/^ */.exec(text.slice(label.end))?.[0].length ?? 0))) return label
    if (label && label.n === undefined) return label
  }
  return undefined
}

function match(spelt: RegExp, read: Read, text: string, at: number): Label | undefined {
  spelt.lastIndex = at
  const found = spelt.exec(text)
  const label = found && read(found)
  return found && label ? { end: at + found[0].length, ...label } : undefined
}

const nthLetter = (letter = '') => letter.toLowerCase().charCodeAt(0) - 96

/** `in three stages`: how many passes follow. */
const STAGED = LANGUAGES.flatMap(({ staged, counts }) =>
  staged
    ? [
        {
          pattern: new RegExp(
            `(?:(?:${staged.before})\\s+|(?<=^\\s*))(?:(\\d)|(${either(counts.flatMap(alternatives))}))\\s+(?:${staged.stages})(?!\\p{L})[:.]?`,
            'iuy',
          ),
          counts,
          begins: new Set(
            [...alternatives(staged.before), ...counts.flatMap(alternatives), ...'23456'].map(
              (word) => word[0],
            ),
          ),
        },
      ]
    : [],
)

export function stagesAt(text: string, at: number): { end: number; count: number } | undefined {
  const first = text[at]?.toLowerCase()
  for (const { pattern, counts, begins } of STAGED) {
    if (!begins.has(first)) continue
    pattern.lastIndex = at
    const found = pattern.exec(text)
    if (found) {
      const count = found[1] ? Number(found[1]) : countOf(counts, found[2])
      return { end: at + found[0].length, count }
    }
  }
  return undefined
}

const countOf = (counts: readonly string[], word = '') =>
  counts.findIndex((forms) => alternatives(forms).includes(word.toLowerCase())) + 1
