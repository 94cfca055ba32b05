/**
 * The house rules, each a function from files to findings, so that a test can feed it a bad sample.
 *
 * A finding names the file and what to do. Imports are read by pattern, not by a compiler: good enough
 * for a house that has one way of writing them, and it needs nothing.
 */
export interface SourceFile {
  /** Relative to the repository, with forward slashes. */
  path: string
  text: string
}

export interface Import {
  from: string
  typeOnly: boolean
}

const isCode = (path: string) => /\.(?:ts|tsx|mts|mjs|js)$/.test(path)
const inRoom = (path: string, ...rooms: string[]) => rooms.some((room) => path.startsWith(`${room}/`))

/** Every `import … from`, `export … from`, bare `import`, `import()` of a plain string, and a sheet’s `@import`. */
export function importsOf(text: string): Import[] {
  const named = [
    ...text.matchAll(/^[ \t]*(?:import|export)\s+(type\s)?(?:[\w$*\s{},]*?)from\s*['"]([^'"]+)['"]/gm),
  ]
  const bare = [...text.matchAll(/^[ \t]*import\s*['"]([^'"]+)['"]/gm)]
  const called = [...text.matchAll(/\b(?:import|require)\(\s*['"]([^'"]+)['"]/g)]
  const sheets = [...text.matchAll(/@import\s+(?:url\()?['"]([^'"]+)['"]/g)]
  return [
    ...named.map(([, type, from = '']) => ({ from, typeOnly: type !== undefined })),
    ...[...bare, ...called, ...sheets].map(([, from = '']) => ({ from, typeOnly: false })),
  ]
}

/** An import as a path in the repository; a package keeps its name. */
export function resolveImport(path: string, from: string): string {
  if (!from.startsWith('.')) return from
  const parts = path.split('/').slice(0, -1)
  for (const part of from.split('/')) {
    if (part === '..') parts.pop()
    else if (part !== '.') parts.push(part)
  }
  return parts.join('/')
}

const fileOf = (to: string, isFile: (path: string) => boolean): string | undefined =>
  [to, `${to}.ts`, `${to}.tsx`, `${to}/index.ts`, `${to}/index.tsx`].find(isFile)

function findImports(files: SourceFile[], wrong: (path: string, to: string, typeOnly: boolean) => boolean) {
  return files
    .filter(({ path }) => isCode(path) || path.endsWith('.css'))
    .flatMap(({ path, text }) =>
      importsOf(text)
        .filter(({ from, typeOnly }) => wrong(path, resolveImport(path, from), typeOnly))
        .map(({ from }) => `${path} imports ${from}`),
    )
}

const impure =
  /^(?:node:|bun:|hono\b|@hono\/|socket\.io|drizzle-|solid-js\b|@solidjs\/|better-sqlite3|@node-rs\/|pino\b|uuid\b|fs$|path$|crypto$)/

export const sharedIsPure = (files: SourceFile[]) =>
  findImports(
    files,
    (path, to) =>
      inRoom(path, 'shared') && (impure.test(to) || inRoom(to, 'server', 'web', 'seed', 'tests', 'drizzle')),
  )

/** No clock and no chance in `shared/`: times and ids are passed in. */
export const sharedHasNoClock = (files: SourceFile[]) =>
  lines(
    files.filter(({ path }) => isCode(path) && inRoom(path, 'shared')),
    /\bDate\.now\(|\bnew Date\(\)|\bMath\.random\(|\bperformance\.now\(|\brandomUUID\(/,
  )

/**
 * What is shown as a date, a time or a number is written by `shared/format`, in the shop's form and its time zone. A
 * program may ask the machine which zone it stands in, to hand it on.
 */
export const onlyFormatWritesDates = (files: SourceFile[]) =>
  lines(
    files.filter(
      ({ path }) =>
        isCode(path) &&
        inRoom(path, 'shared', 'server', 'web', 'seed') &&
        !inRoom(path, 'shared/format', 'server/setup'),
    ),
    /\bIntl\.(?!DateTimeFormat\(\)\.resolvedOptions\(\))|\.toLocale\w*\(|\.to(?:Date|Time)String\(|['"]en-\w+['"]|\.[gs]et(?:Hours|Minutes|Date|Day|Month|FullYear)\(/,
  )

/**
 * A length, a torque, an angle or a share is shown as the shop writes numbers: never put bare before its unit, never
 * rounded by hand. Counts and numbers of places are whole, and stand as they are; drawings round their coordinates.
 */
export const screensWriteNumbersByFormat = (files: SourceFile[]) =>
  lines(
    files.filter(({ path }) => isCode(path) && inRoom(path, 'web') && !inRoom(path, 'web/drawings')),
    /\.to(?:Fixed|Precision)\(/,
  ).concat(
    lines(
      files.filter(({ path }) => isCode(path) && inRoom(path, 'web')),
      BARE_NUMBER,
    ),
  )

/** `{lengthMm} mm`, `${entry().value} N·m`, `{tolerances[cls]} %`, `{torqueNm}`: a path of names, with nothing made of it. */
const BARE_NUMBER =
  /(?<!=)\{(?:(?:\w|\?\.|\(\)|\.|\[\w+\])+\}(?: (?:N·m|mm²?|kN|MPa|lbf·\w+|%)|°)|(?:\w|\?\.|\(\)|\.)*(?:Nm|Mm|Pct|Deg|MPa)(?:\(\))?\})/

export const serverAndWebAreApart = (files: SourceFile[]) =>
  findImports(
    files,
    (path, to) =>
      (inRoom(path, 'server') && inRoom(to, 'web')) || (inRoom(path, 'web') && inRoom(to, 'server')),
  )

/**
 * Imports run one way: no file reaches itself again, types included and `import()` left out, which is how a page is
 * put off. Each circle is named once, by the way around it.
 */
export function noImportCircles(files: SourceFile[]): string[] {
  const code = new Map(files.filter(({ path }) => isCode(path)).map((file) => [file.path, file.text]))
  const importedBy = (path: string) =>
    importsOf(withoutPutOff(code.get(path) ?? '')).flatMap(({ from }) => {
      const to = from.startsWith('.') && fileOf(resolveImport(path, from), (file) => code.has(file))
      return to ? [to] : []
    })
  const findings: string[] = []
  const finished = new Set<string>()
  const way: string[] = []
  const follow = (path: string) => {
    const start = way.indexOf(path)
    if (start >= 0) findings.push([...way.slice(start), path].join(' → '))
    if (start >= 0 || finished.has(path)) return
    way.push(path)
    for (const to of importedBy(path)) follow(to)
    way.pop()
    finished.add(path)
  }
  for (const path of code.keys()) follow(path)
  return findings
}

/** The seed plays through the server's desk; the server knows nothing of it. */
export const serverKnowsNoSeed = (files: SourceFile[]) =>
  findImports(files, (path, to) => inRoom(path, 'server') && inRoom(to, 'seed'))

/** The rooms of `web/`, each with those it may import beside itself; `format.ts` and sheets of style are open to all. */
const WEB_ROOMS: Record<string, readonly string[]> = {
  styles: [],
  early: [],
  worker: [],
  ui: [],
  drawings: ['ui'],
  live: ['ui'],
  people: ['ui', 'live'],
  shop: ['ui', 'live', 'people'],
  job: ['ui', 'drawings', 'live', 'people', 'shop'],
  frame: ['ui', 'drawings', 'live', 'people'],
  pages: ['ui', 'drawings', 'live', 'people', 'shop', 'job', 'frame'],
}
const webRoomOf = (path: string) => /^web\/([^/]+)\//.exec(path)?.[1]

/** `ui` and `drawings` know nothing of what is live; `live`, `job` and `frame` nothing of pages. */
export const webRoomsImportDownwards = (files: SourceFile[]) =>
  findImports(files, (path, to) => {
    const [from, room] = [webRoomOf(path), webRoomOf(to)]
    if (from === undefined || room === undefined || from === room) return false
    return room !== 'styles' && !WEB_ROOMS[from]?.includes(room)
  })

/** What two pages need stands in a room below them. */
export const pagesAreApart = (files: SourceFile[]) =>
  findImports(files, (path, to) => {
    const [from, page] = [path, to].map((each) => /^web\/pages\/([^/]+)/.exec(each)?.[1])
    return from !== undefined && page !== undefined && from !== page
  })

/** What `web/ui` has once, pages do not make by hand: forms, selects, dialogs, and the clock of what is displayed. */
export const controlsComeFromUi = (files: SourceFile[]) => [
  ...lines(
    files.filter(({ path }) => path.endsWith('.tsx') && inRoom(path, 'web') && !inRoom(path, 'web/ui')),
    /<(?:form|select|dialog)\b/,
  ),
  ...lines(
    files.filter(({ path }) => isCode(path) && inRoom(path, 'web') && !inRoom(path, 'web/ui', 'web/live')),
    /\bsetInterval\(/,
  ),
]

/** zod stays out of the browser: schemas stand in schema.ts files, and `web/` takes only types from them. */
export const zodStaysInSchemas = (files: SourceFile[]) =>
  findImports(files, (path, to, typeOnly) => {
    if (typeOnly || inRoom(path, 'tests')) return false
    if (/^zod(?:\/|$)/.test(to)) return !/^shared\/(?:.*\/)?schema\.ts$/.test(path)
    return inRoom(path, 'web') && inRoom(to, 'shared') && /\/schema(?:\.[jt]s)?$/.test(to)
  })

/** What the first page loads: a shop's slow tablet waits for it, and it is told its reasons, so it needs no rules. */
const FIRST_PAGE = ['web/main.tsx', 'web/pages/board/index.tsx']
const NOT_FIRST = /^shared\/(?:job\/(?:decide|evolve|verdicts|summary)|fastener|spec|sheet|measure)\b/

/** Followed through every import of a value that is not put off by `import()`. */
export function firstPageLoadsNoRules(files: SourceFile[]): string[] {
  const code = new Map(files.filter(({ path }) => isCode(path)).map((file) => [file.path, file.text]))
  const found = (to: string) => fileOf(to, (path) => code.has(path))
  const seen = new Set(FIRST_PAGE)
  const findings: string[] = []
  for (const path of seen)
    for (const { from, typeOnly } of importsOf(withoutPutOff(code.get(path) ?? ''))) {
      const to = resolveImport(path, from)
      if (typeOnly || !from.startsWith('.')) continue
      if (NOT_FIRST.test(to)) findings.push(`${path} imports ${from}`)
      else {
        const next = found(to)
        if (next) seen.add(next)
      }
    }
  return findings
}

const withoutPutOff = (text: string): string => text.replace(/\bimport\(\s*['"][^'"]+['"]\s*\)/g, '')

/** Nothing left for later, no check switched off, no test left out or singled out. */
export const nothingIsPutOff = (files: SourceFile[]) =>
  lines(
    files.filter(({ path }) => isCode(path) || /\.(?:css|html|sql|md)$/.test(path)),
    /\b(?:TO(?:DO)|FIX(?:ME))\b|@ts-(?:ignore|nocheck)|\b(?:test|it|describe|suite|bench)(?:\.\w+)*\.(?:skip|only|todo|skipIf|runIf|fails)\b/,
  )

/** No path of one person's machine, in any file; no fixed temporary folder in code. */
export const noMachinePaths = (files: SourceFile[]) => [
  ...lines(files, /(?<![\w.$}*-])\/(?:work|root|home\/\w+|Users\/\w+)\/\w/),
  ...lines(
    files.filter(({ path }) => isCode(path)),
    /(?<![\w.$}*-])\/tmp\/\w/,
  ),
]

export const longest = 400

export const filesFitOneSitting = (files: SourceFile[]) =>
  files
    .filter(({ path }) => /\.tsx?$/.test(path) && inRoom(path, 'server', 'web', 'shared', 'seed'))
    .map(({ path, text }) => ({ path, length: text.replace(/\n$/, '').split('\n').length }))
    .filter(({ length }) => length > longest)
    .map(({ path, length }) => `${path} has ${length} lines; part it by subject (at most ${longest})`)

const topLevel = new Set(
  (
    'README.md DEVELOPERS.md package.json server web shared drizzle tests seed ' +
    'package-lock.json tsconfig.json .ci .gitattributes .gitignore .npmrc LICENSE biome.json'
  ).split(' '),
)

export const topLevelIsKnown = (files: SourceFile[]) =>
  [...new Set(files.map(({ path }) => path.split('/')[0] ?? ''))]
    .filter((entry) => !topLevel.has(entry))
    .map((entry) => `${entry} stands at the top; give it a room`)

/** The lock names no registry, so that it works behind any. */
export const lockNamesNoRegistry = (files: SourceFile[]) =>
  lines(
    files.filter(({ path }) => path === 'package-lock.json'),
    /"resolved"\s*:\s*"/,
  )

/** What a sheet gives way to, first to last; said once, at the head of `web/styles/base.css`. */
const LAYERS = ['reset', 'base', 'layout', 'controls', 'parts', 'pages', 'print']

const isSheet = ({ path }: SourceFile) => path.endsWith('.css') && inRoom(path, 'web')
const bare = (text: string) => text.replace(/\/\*[\s\S]*?\*\//g, (note) => note.replace(/[^\n]/g, ' '))
const lineAt = (text: string, index: number) => text.slice(0, index).split('\n').length

/** A rule that stands in no layer wins over all that do: then the longer selector decides again. */
export const sheetsStandInLayers = (files: SourceFile[]) =>
  files.filter(isSheet).flatMap(({ path, text }) => {
    let depth = 0
    return bare(text)
      .split('\n')
      .flatMap((line, index) => {
        const outside = depth === 0 && line.trim() !== ''
        depth += (line.match(/\{/g)?.length ?? 0) - (line.match(/\}/g)?.length ?? 0)
        const known = /^@(?:import|font-face)\b/.test(line) || layersNamed(line)
        return outside && !known ? [`${path}:${index + 1} ${line.trim()} stands in no layer`] : []
      })
  })

const layersNamed = (line: string) =>
  /^@layer /.test(line) &&
  line
    .replace(/^@layer |[;{]\s*$/g, '')
    .split(',')
    .every((name) => LAYERS.includes(name.trim()))

/** Phone, tablet upright, tablet: the widths at which a page may change, of the window or of a container. */
const BREAKPOINTS = ['44rem', '60rem', '75rem']

export const widthsAreBreakpoints = (files: SourceFile[]) =>
  files
    .filter(isSheet)
    .flatMap(({ path, text }) =>
      [...bare(text).matchAll(/@(?:media|container)\b([^{]*)/g)].flatMap(({ 1: query = '', index }) =>
        [...query.matchAll(/\([^()]*(?:width|inline-size)[^()]*\)/g)]
          .filter(
            ([asked]) =>
              !BREAKPOINTS.some((width) => asked === `(width <= ${width})` || asked === `(width > ${width})`),
          )
          .map(
            ([asked]) =>
              `${path}:${lineAt(text, index)} ${asked}: a page changes at ${BREAKPOINTS.join(', ')}`,
          ),
      ),
    )

const MOST_TOKENS = 12
const TOKENS: readonly [kind: string, defined: RegExp][] = [
  ['space', /^\s*--(?:s\d+|gutter|edge):/gm],
  ['text', /^\s*--(?:label|small|body|lead|large|title|huge|figure|number|giant|reading):/gm],
]

/** Each step of the scales is one more thing to choose between. */
export const scalesAreShort = (files: SourceFile[]) =>
  files
    .filter(({ path }) => path === 'web/styles/tokens.css')
    .flatMap(({ path, text }) =>
      TOKENS.filter(([, defined]) => (text.match(defined)?.length ?? 0) > MOST_TOKENS).map(
        ([kind]) => `${path} has more than ${MOST_TOKENS} tokens for ${kind}`,
      ),
    )

const SIZED = /(?<![\w-])(?:margin|padding|gap|row-gap|column-gap|font)(?:-[a-z-]+)?:([^;{}]*)/g
const MEASURE = /(?<![\w.-])-?\d*\.?\d+(?:px|rem|em|pt|mm)\b/

/** Margins, paddings, gaps and letters go by the tokens; `web/styles` makes the tokens and what all pages share. */
export const sheetsUseTokens = (files: SourceFile[]) =>
  files
    .filter((file) => isSheet(file) && !inRoom(file.path, 'web/styles'))
    .flatMap(({ path, text }) =>
      [...bare(text).matchAll(SIZED)]
        .filter(({ 1: value = '' }) => MEASURE.test(value))
        .map(
          ({ 0: rule, index }) => `${path}:${lineAt(text, index)} ${rule.trim()}: take a token of tokens.css`,
        ),
    )

function lines(files: SourceFile[], wrong: RegExp): string[] {
  return files.flatMap(({ path, text }) =>
    text
      .split('\n')
      .flatMap((line, index) =>
        wrong.test(line) ? [`${path}:${index + 1} ${line.trim().slice(0, 120)}`] : [],
      ),
  )
}
