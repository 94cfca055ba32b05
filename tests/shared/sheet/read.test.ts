import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { doubtfulFirst, type ItemLine, ROLES, readSheet, type SheetChoices } from '../../../shared/sheet'
import { printSpec } from '../../../shared/spec'
import { toNm } from '../../../shared/units'
import { figures } from '../../shop/words'

const items = (text: string, choices: SheetChoices = {}) =>
  readSheet(text, figures, choices).lines.filter((line): line is ItemLine => line.kind === 'item')
const says = (line: ItemLine | undefined) => (line?.spec ? printSpec(line.spec) : line?.refusal?.refused)
const roles = (text: string, choices: SheetChoices = {}) =>
  readSheet(text, figures, choices).columns.map(({ role }) => role)

const CSV = `Item,Thread,Qty,Torque,Note
Head bolts,M10x1.25,10,"1st 40 Nm, 2nd 70 Nm, 3rd +90°",new bolts
Main caps,M12,10,"79 Nm (806 kgf-cm, 58 ft. lbs.)",
Sump plug,M14,1,see note,
Rod nuts,M8,8,35,
Flywheel,M10,8,95 N·m (70 in-lb),
`

describe('columns', () => {
  test('[TS2] by their headings, with the reason', () => {
    expect(readSheet(CSV, figures)).toMatchObject({
      delimiter: ',',
      columns: [
        { role: 'item', why: 'The heading says “Item”.' },
        { role: 'thread' },
        { role: 'count' },
        { role: 'torque' },
        { role: 'note' },
      ],
    })
  })

  test('[TS2] by what stands in them, with the reason', () => {
    const sheet = readSheet('Head bolt;M10;10;40 Nm\nMain cap;M12;10;79 Nm\nPlug;M14;1;35\n', figures)
    expect(sheet.columns.map(({ role, why }) => [role, why])).toEqual([
      ['item', 'It has words.'],
      ['thread', 'It has thread sizes.'],
      ['count', 'It has whole numbers up to 60.'],
      ['torque', 'It has torques with their units.'],
    ])
    expect(roles('Head\t18\t22\tN·m\nCover\t90\t110\tlb-in')).toEqual(['item', 'min', 'max', 'unit'])
    expect(roles('Head,40 Nm,30 lb-ft\nCap,79 Nm,58 lb-ft')).toEqual(['item', 'torque', 'also'])
  })

  test('[TS3] the author’s choice stands above the guess', () => {
    const text = 'a,b,c\nHead,22,18\nCover,11,9\n'
    const chosen = { roles: { 0: 'item', 1: 'max', 2: 'min' }, unit: 'N·m' } as const
    expect(readSheet(text, figures, chosen).columns.map(({ role, why }) => [role, why])).toEqual([
      ['item', 'Chosen.'],
      ['max', 'Chosen.'],
      ['min', 'Chosen.'],
    ])
    expect(items(text, { ...chosen, headerLine: 1 }).map(says)).toEqual(['18–22 N·m', '9–11 N·m'])
    expect(items(CSV, { roles: { 3: 'none' } }).map(says)).toEqual(Array(5).fill('nothing_printed'))
    expect(items(CSV, { headerLine: null })[0]).toMatchObject({ line: 1, item: 'Item' })
  })

  test('[TS2] a column taken already is kept as a note, not read twice', () => {
    const sheet = readSheet('Item,Torque,Tightening torque\nHead,40 Nm,45 Nm\n', figures)
    expect(sheet.columns[2]).toMatchObject({ role: 'note', why: expect.stringContaining('Column 2') })
    expect(sheet.lines[1]).toMatchObject({ note: '45 Nm' })
  })
})

describe('lines', () => {
  test('[TS4] each is read by readSpec, with its thread, count and note', () => {
    expect(
      items(CSV).map((line) => [line.line, line.item, says(line), line.thread, line.count, line.note]),
    ).toEqual([
      [2, 'Head bolts', '40 N·m, then 70 N·m, then +90°', 'M10x1.25', 10, 'new bolts'],
      [3, 'Main caps', '79 N·m', 'M12', 10, undefined],
      [4, 'Sump plug', 'not_a_torque', 'M14', 1, undefined],
      [5, 'Rod nuts', 'unclear', 'M8', 8, undefined],
      [6, 'Flywheel', '95 N·m (70 in-lb)', 'M10', 8, undefined],
    ])
  })

  test.each([
    ['Item\tTorque (N·m)\nHead\t40', '40 N·m'],
    ['Item\tTorque, ft. lbs.\nHead\t40', `${toNm(40, 'lbf·ft')} N·m`],
    ['Item\tNm\nHead\t18-22', '18–22 N·m'],
    ['Item\tTorque\t\n\tN·m\tlb-ft\nHead\t24\t18', '24 N·m'],
    ['Item\tTorque\tUnit\nHead\t40\tNm', '40 N·m'],
    ['Item\tMin (N·m)\tMax (N·m)\nHead\t18\t22', '18–22 N·m'],
    ['Item\tTorque\tMin\tMax\tUnit\nHead\t20\t18\t22\tNm', '20 N·m (18–22 N·m)'],
    ['Item\tMin\tMax\tUnit\nHead\t18\t\tNm', 'min 18 N·m'],
    ['Item\tTorque Nm\tAngle\nHead\t30\t90', '30 N·m, then +90°'],
    ['Item\tTorque Nm\tAngle\nHead\t30\t60+60', '30 N·m, then +60°, then +60°'],
    ['Item\tTorque\tUnit\nHead\t35 lb-ft\tNm', `${toNm(35, 'lbf·ft')} N·m`],
  ])('[TS4] the unit of heading, unit column, limits, angle: %j', (text, printed) => {
    expect(says(items(text)[0])).toBe(printed)
  })

  test.each([
    ['Nm (lb ft)', '47 (35)', '47 N·m'],
    ['Torque N·m (ft-lb)', '40-47 (30-35)', '40–47 N·m'],
    ['Torque, lb-ft / N·m', '35 / 47', `${toNm(35, 'lbf·ft')} N·m`],
    ['Torque N·m (ft-lb)', '47', '47 N·m'],
    ['Torque N·m (ft-lb)', '35 lb-ft', `${toNm(35, 'lbf·ft')} N·m`],
    ['Max Nm [lb ft]', '47 [35]', 'max 47 N·m'],
  ])('[TS4] a heading of two units, %s, gives each number its own: %s', (heading, cell, printed) => {
    const [line] = items(`Item\t${heading}\tThread\nMain cap\t${cell}\tM10\n`)
    expect(line?.spec && printSpec(line.spec)).toBe(printed)
    expect(line?.doubt).toBeUndefined()
  })
  test('[TS4] and where the two do not agree it says so', () => {
    const [line] = items('Item\tNm (lb ft)\tThread\nMain cap\t47 (60)\tM10\n')
    expect(line?.spec?.contradiction).toMatchObject({ second: { text: '60 lbf·ft' } })
  })
  test('[TS4] two units in two columns are held against each other', () => {
    const [agree, differ] = items('Item;N·m;lb-ft\nHead;24;18\nPulley;95;7\n')
    expect(agree).not.toHaveProperty('doubt')
    expect(differ).toMatchObject({
      spec: { contradiction: { first: { text: '95 N·m' }, second: { text: '7 lbf·ft' } } },
      doubt: ['95 N·m and 7 lbf·ft are not the same torque. Look at the page.'],
    })
  })

  test('[TS5] a decimal comma anywhere in the column decides for the whole column', () => {
    expect(items('Item;Torque (N·m)\nHead;12,5\nBig one;1.250\n').map(says)).toEqual(['12.5 N·m', '1250 N·m'])
    expect(items('Item;Torque (N·m)\nHead;12\nBig one;1.250\n').map(says)).toEqual(['12 N·m', 'unclear'])
  })

  test('[TS6] headers, also repeated ones, and section headings stay as such', () => {
    const sheet = readSheet(
      'Item,Torque\nCYLINDER HEAD,\nHead bolts,40 Nm\nITEM,TORQUE\nCRANKSHAFT,\nMain caps,79 Nm\n',
      figures,
    )
    expect(sheet.lines.map(({ kind, line }) => [line, kind])).toEqual([
      [1, 'header'],
      [2, 'section'],
      [3, 'item'],
      [4, 'header'],
      [5, 'section'],
      [6, 'item'],
    ])
    expect(readSheet('Head bolts,40 Nm\nSump plug,\n', figures).lines[1]).toMatchObject({
      kind: 'section',
      doubt: [expect.stringContaining('missing')],
    })
  })

  test('[TS7] what is odd about a line is said', () => {
    const [, unit, count, noName, extra] = items(
      'Item,Torque,Unit,Qty\nA,40,Nm,2\nB,40,Xm,2\nC,40,Nm,many\n,40,Nm,2\nD,40,Nm,2,stray\n',
    )
    expect(unit).toMatchObject({ refusal: { refused: 'unclear' } })
    expect(unit?.doubt).toContain('“Xm” is not a torque unit known here.')
    expect(count?.doubt).toEqual(['“many” is not a number of fasteners.'])
    expect(noName?.doubt).toEqual(['The line names no item.'])
    expect(extra?.text).toBe('D,40,Nm,2,stray')
    expect(extra?.doubt).toEqual(['One of its cells is under no known column.'])
  })

  test('[TS8] unread lines first, then doubtful ones, each in order', () => {
    expect(doubtfulFirst(readSheet(CSV, figures).lines).map(({ line }) => line)).toEqual([4, 5, 6, 1, 2, 3])
  })
})

describe('how sheets come', () => {
  test('[TS1] columns of a scanned page, parted by runs of spaces or dots', () => {
    const sheet = readSheet(
      `
Item                          N·m        lb-ft      Size
CYLINDER HEAD
Head bolts                    24         18         M8
Rocker cover bolts            9.5        7.0        M6 x 1.0
Camshaft cap .............    10-12      7-9
Breather                                            M5
`,
      figures,
    )
    expect(sheet.delimiter).toBe('spaces')
    expect(
      sheet.lines.map((line) => (line.kind === 'item' ? [line.item, says(line), line.thread] : line.kind)),
    ).toEqual([
      'header',
      'section',
      ['Head bolts', '24 N·m', 'M8'],
      ['Rocker cover bolts', '9.5 N·m', 'M6 x 1.0'],
      ['Camshaft cap', '10–12 N·m', undefined],
      ['Breather', 'nothing_printed', 'M5'],
    ])
    expect(sheet.lines[5]?.doubt).toContainEqual(expect.stringContaining('fewer cells'))
    expect(items('Head bolts ........ 24 N·m\nSump ... 10 N·m').map(says)).toEqual(['24 N·m', '10 N·m'])
  })

  test('[TS1] plain lines with the torque at the end', () => {
    const sheet = readSheet(
      'Engine block\nMain cap bolts M12: 79 N·m (58 lb-ft)\nRod cap nuts 30 Nm + 90°\nOil filter hand tight\nSensor 20\n',
      figures,
    )
    expect(sheet.delimiter).toBe('lines')
    expect(sheet.lines.map((line) => (line.kind === 'item' ? [line.item, says(line)] : line.kind))).toEqual([
      'section',
      ['Main cap bolts M12', '79 N·m'],
      ['Rod cap nuts', '30 N·m, then +90°'],
      ['Oil filter hand tight', 'not_a_torque'],
      ['Sensor 20', 'not_a_torque'],
    ])
    expect(sheet.lines[1]).toMatchObject({ thread: 'M12' })
  })

  test('[TS1] a quoted cell may run over lines; inches are no quoting', () => {
    const quoted = readSheet('Item,Torque\r\nHead,"40 Nm\r\n70 Nm\r\n90°"\r\nCap,79 Nm\r\n', figures)
    expect(quoted.lines.map(({ line }) => line)).toEqual([1, 2, 5])
    expect(quoted.lines[1]).toMatchObject({
      text: 'Head,"40 Nm\r\n70 Nm\r\n90°"',
      spec: { passes: { length: 3 } },
    })
    expect(
      items('Item,Size,Torque\nHead,3/8"-16,35 lb-ft\nPan,1/4"-20,80 in-lb\n').map(({ thread }) => thread),
    ).toEqual(['3/8"-16', '1/4"-20'])
  })

  test('[TS1] the delimiter may be chosen', () => {
    expect(items('Head; 1st 40 Nm, 2nd 70 Nm', { delimiter: ';' }).map(says)).toEqual(['40 N·m, then 70 N·m'])
  })
})

describe('for every pasted text', () => {
  const cell = fc.constantFrom(
    ...'Item|Torque|Head bolts|40 Nm|18-22|35|N·m|lb-ft|M10x1.25|10|see note||12,5|1,250|"|"40 Nm\n70 Nm"|3/8"-16|90°|…'.split(
      '|',
    ),
  )
  const table = fc
    .tuple(
      fc.constantFrom(',', ';', '\t', '|', '   ', '\n'),
      fc.array(fc.array(cell, { minLength: 1, maxLength: 6 }), { maxLength: 8 }),
    )
    .map(([sign, rows]) => rows.map((row) => row.join(sign)).join('\n'))
  const choices = fc.record(
    {
      roles: fc.dictionary(fc.constantFrom('0', '1', '2'), fc.constantFrom(...ROLES)),
      headerLine: fc.constantFrom(null, 1, 2),
    },
    { requiredKeys: [] },
  )

  test('[TS9] nothing is dropped and nothing throws', () => {
    fc.assert(
      fc.property(fc.oneof(table, fc.string({ unit: 'binary', maxLength: 80 })), choices, (text, chosen) => {
        const sheet = readSheet(text, figures, chosen as SheetChoices)
        const kept = letters(sheet.lines.map((line) => line.text).join(''))
        expect(kept).toBe(letters(text))
        for (const line of sheet.lines)
          if (line.kind === 'item') expect([line.spec, line.refusal].filter(Boolean)).toHaveLength(1)
      }),
      { numRuns: 600 },
    )
  })
})

/** All that is not space and not a separator: lines of nothing else are blank. */
function letters(text: string): string {
  return text.replace(/[\s\uFEFF,;|"…._]/g, '')
}

describe('a line without columns', () => {
  const itemOf = (text: string) =>
    readSheet(`Cylinder head\n${text}`, figures).lines.find(({ kind }) => kind === 'item')

  test.each(['not 25 Nm', 'Head bolts do not exceed 90 Nm'])(
    '[TS9] its end is doubtful where the whole says something else: %s',
    (text) => {
      expect(itemOf(text)?.doubt?.join(' ')).toMatch(/alone; the words before it may change it/)
    },
  )
  test.each([
    ['Rod nuts M9x1.0 8 off 25 N·m + 60°', 8],
    ['Flywheel bolts M10 8 no. 22 Nm', 8],
    ['Manifold nuts 22 Nm', undefined],
    ['Cover M8 x 25 22 Nm', undefined],
  ])('[TS9] how many is read among its words: %s', (text, count) => {
    expect(itemOf(text)).toMatchObject({ kind: 'item', ...(count ? { count } : {}) })
    expect(itemOf(text)).not.toMatchObject({ count: 25 })
  })
})
