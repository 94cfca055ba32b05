/**
 * JSON text into a value, or where it breaks off: line, column and what to put right.
 *
 * The platform's own parser decides. This scanner only finds the place, which not every platform tells,
 * and a name given twice in one object, of which the platform would silently drop the first.
 */
export interface JsonSlip {
  line: number
  column: number
  problem: string
  fix: string
}

export function readJson(text: string): { value: unknown } | { slip: JsonSlip } {
  const body = text.replace(/^\uFEFF/, '')
  let value: unknown
  let broken = false
  try {
    value = JSON.parse(body)
  } catch {
    broken = true
  }
  const slip = findSlip(body)
  if (slip) return { slip }
  if (broken)
    return { slip: { line: 1, column: 1, problem: 'This is not JSON', fix: 'Save the plan as JSON text.' } }
  return { value }
}

const DEEPEST = 60
const SPACE = /[ \t\n\r]*/y
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids them in text, so they are looked for.
const TEXT = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y
const PLAIN = /(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)(?![\w.+-])/y

class Slipped extends Error {
  constructor(
    readonly offset: number,
    readonly problem: string,
    readonly fix: string,
  ) {
    super(problem)
  }
}

function findSlip(text: string): JsonSlip | undefined {
  let at = 0
  const take = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at
    const token = pattern.exec(text)?.[0]
    if (token !== undefined) at += token.length
    return token
  }
  const next = () => {
    take(SPACE)
    return text[at]
  }
  const slip = (problem: string, fix: string, offset = at): never => {
    throw new Slipped(offset, problem, fix)
  }
  const end = () => (at >= text.length ? 'The text ends too early' : undefined)

  function value(depth: number): void {
    const first = next()
    if (depth > DEEPEST) slip('The text is nested too deep', 'A plan needs no more than ten levels.')
    if (first === '{') entries(depth)
    else if (first === '[') items(depth)
    else if (first === '"') {
      if (take(TEXT) === undefined)
        slip('This text is not closed or has a character it cannot have', 'Close it with " on the same line.')
    } else if (take(PLAIN) === undefined)
      slip(end() ?? 'A value is missing or misspelt here', 'Put text in double quotes, and a number as 12.5.')
  }
  function entries(depth: number): void {
    const names = new Set<string>()
    at += 1
    let open = next() !== '}'
    if (!open) at += 1
    while (open) {
      next()
      const start = at
      const name =
        take(TEXT) ??
        slip(
          end() ?? 'A name in double quotes is missing here',
          'Write "name": value, without a comma after the last one.',
        )
      if (names.has(name)) slip(`The name ${name} stands twice in one place`, 'Keep one of them.', start)
      names.add(name)
      if (next() !== ':') slip(end() ?? `A colon is missing after ${name}`, 'Write "name": value.')
      at += 1
      value(depth + 1)
      open = !closes('}')
    }
  }
  function items(depth: number): void {
    at += 1
    let open = next() !== ']'
    if (!open) at += 1
    while (open) {
      if (next() === ']') slip('There is a comma after the last entry', 'Take the last comma out.')
      value(depth + 1)
      open = !closes(']')
    }
  }
  function closes(bracket: '}' | ']'): boolean {
    const sign = next()
    if (sign !== bracket && sign !== ',')
      slip(end() ?? `A comma or ${bracket} is missing here`, 'Put a comma between entries.')
    at += 1
    return sign === bracket
  }

  try {
    value(0)
    if (next() !== undefined) slip('There is more text after the end of the plan', 'Keep one plan a file.')
    return undefined
  } catch (error) {
    if (!(error instanceof Slipped)) throw error
    const before = text.slice(0, error.offset).split('\n')
    return {
      line: before.length,
      column: (before.at(-1)?.length ?? 0) + 1,
      problem: error.problem,
      fix: error.fix,
    }
  }
}
