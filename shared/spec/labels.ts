/** Pass numbers as manuals print them: `Step 2:`, `2nd`, `b)`, `(3)`, `④`, `finally`. */

/** Without a number: `finally`. `dotted`: `2. `, which may be half a decimal number. */
export interface Label {
  end: number
  n?: number
  dotted?: boolean
}

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth']
const COUNTS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight']
const CIRCLED = '①②③④⑤⑥⑦⑧⑨'
const STAGE = '(?:step|stage|pass|phase|round|sequence)'
const AFTER = '\\s*(?:[:.)]|[-‐‑‒–—−](?=[ ]))?'

type Read = (found: RegExpExecArray) => { n?: number; dotted?: boolean }

/** What each can begin with, so that most places of a text are left at once; how it is spelt; its number. */
const LABELS: [begins: RegExp, spelt: RegExp, read: Read][] = [
  [
    /[(sprSPR]/,
    new RegExp(
      `\\(?${STAGE}\\s*(?:no\\.?\\s*)?(?:(\\d{1,2})(?![.,]?\\d|[°º])|(${COUNTS.join('|')})\\b|([a-h])\\b)\\)?${AFTER}`,
      'iy',
    ),
    ([, digit, word, letter]) => ({
      n: digit ? Number(digit) : word ? nth(COUNTS, word) : nthLetter(letter),
    }),
  ],
  [
    /\d/,
    new RegExp(`(\\d{1,2})(?:st|nd|rd|th)\\b(?:\\s+${STAGE})?${AFTER}`, 'iy'),
    ([, digit]) => ({ n: Number(digit) }),
  ],
  [
    /[fstFSTeE]/,
    new RegExp(
      `(${ORDINALS.join('|')})(?:ly)?\\b(?!\\s+(?:of\\s+a\\s+)?turn)(?:\\s+${STAGE})?${AFTER}`,
      'iy',
    ),
    ([, word]) => ({ n: nth(ORDINALS, word) }),
  ],
  [
    /[afilAFIL]/,
    new RegExp(
      `(?:and\\s+)?(?:final|finally|initial|initially|lastly|last)\\b(?:\\s+${STAGE})?${AFTER}`,
      'iy',
    ),
    () => ({}),
  ],
  [/\(/, /\(([1-9])\)(?=\s)/y, ([, digit]) => ({ n: Number(digit) })],
  [/[(a-hA-H]/, /\(?([a-h])\)/iy, ([, letter]) => ({ n: nthLetter(letter) })],
  [/[1-9]/, /([1-9])\.?\)/y, ([, digit]) => ({ n: Number(digit) })],
  [/[1-9]/, /([1-9])[.:](?=\s+[\d+\p{L}])/uy, ([, digit]) => ({ n: Number(digit), dotted: true })],
  [/[①-⑨]/, /([①-⑨])/y, ([, circle]) => ({ n: CIRCLED.indexOf(circle ?? '') + 1 })],
]

export function labelAt(text: string, at: number): Label | undefined {
  const first = text[at] ?? ''
  for (const [begins, spelt, read] of LABELS) {
    if (!begins.test(first)) continue
    spelt.lastIndex = at
    const found = spelt.exec(text)
    if (found) return { end: at + found[0].length, ...read(found) }
  }
  return undefined
}

const nth = (list: string[], word = '') => list.indexOf(word.toLowerCase()) + 1
const nthLetter = (letter = '') => letter.toLowerCase().charCodeAt(0) - 96
