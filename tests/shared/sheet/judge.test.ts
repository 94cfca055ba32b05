/** Every imported line meets the judge; what a sheet's numbers and words mean is decided for the sheet, and said. */
import { describe, expect, test } from 'vitest'
import { doubtfulFirst, type ItemLine, readSheet, sheetToPlan } from '../../../shared/sheet'
import { printSpec } from '../../../shared/spec'
import { figures } from '../../shop/words'

const items = (text: string) =>
  readSheet(text, figures).lines.filter((line): line is ItemLine => line.kind === 'item')
const first = (text: string) => items(text)[0] as ItemLine
const HEAD = { id: 'draft', title: 'Draft', family: 'diesel', source: 'A sheet made up for a test' }
const joints = (text: string) =>
  sheetToPlan(readSheet(text, figures).lines, HEAD, figures).plan.steps.flatMap((step) => step.joints)
const says = (line: ItemLine | undefined) => (line?.spec ? printSpec(line.spec) : line?.refusal?.refused)

const GRADED = 'Item;Thread;Torque;Grade;Lubrication\n'

describe('the judge at the import', () => {
  test.each([
    [
      '60 N·m',
      '8.8',
      'breaks: 60 N·m would break an M8x1.25 bolt (8.8): even at the highest friction it comes to 145 %',
    ],
    ['25 kgm', '', 'times: 245 N·m is 4.9 times what an M8x1.25 bolt (8.8) bears'],
    ['1050 N·m', '12.9', 'breaks: 1050 N·m would break'],
    ['20 N·m, then 60 N·m', '8.8', 'breaks: 60 N·m would break'],
  ])(
    '[TS11] %s on M8 %s stops its line, with figures, and the plan has no torque of it',
    (torque, grade, words) => {
      const text = `${GRADED}Cover;M8x1.25;${torque};${grade};oil\n`
      const line = first(text)
      const sentence = words.slice(words.indexOf(': ') + 2)
      if (grade) expect(line.stop).toContain(sentence)
      else expect(first(text.replace(';oil', ';')).stop).toContain(sentence)
      expect(line.doubt?.[0]).toBe(line.stop)
      expect(line.spec).toBeDefined()
      const [joint] = joints(text)
      expect(joint?.passes).toEqual([{ kind: 'torque', torqueNm: null }])
      expect(joint?.notes).toContain(line.stop)
    },
  )

  test('[TS11] impossible lines come first, then unread, then doubtful', () => {
    const text = `${GRADED}A;M8x1;36 N·m;8.8;oil\nB;M8x1;see page 3;8.8;oil\nC;M8x1;22 N·m;8.8;oil\nD;M8x1;90 N·m;8.8;oil\n`
    expect(doubtfulFirst(readSheet(text, figures).lines).map(({ line }) => line)).toEqual([5, 3, 2, 1, 4])
  })

  test.each([
    [
      '36 N·m',
      'bolt',
      /36 N·m would pull an M8x1.25 bolt \(8.8\) past its yield at usual friction \(132 %\)/,
    ],
    ['0.5 N·m', 'bolt', /hardly loads an M8x1.25 bolt \(8.8\): 2 % of its yield/],
    ['2.5 N·m', 'bolt', /hardly loads an M8x1.25 bolt \(8.8\): 9 % of its yield/],
    ['30 N·m + 90°', 'bolt', /past its yield/],
    ['0.4 N·m', 'drain plug', /is little for an M8x1.25 plug/],
  ])('[TS12] %s on M8 8.8, oiled, is doubtful', (torque, item, words) => {
    const line = first(`${GRADED}Cover ${item};M8;${torque};8.8;oil\n`)
    expect(line).not.toHaveProperty('stop')
    expect(line.doubt?.[0]).toMatch(words)
  })

  test('[TS12] a light first pass only seats the joint; an angle is the maker’s', () => {
    expect(first(`${GRADED}A;M10;1 N·m then 40 N·m;8.8;oil\n`)).not.toHaveProperty('doubt')
    expect(first(`${GRADED}A;M10;40 N·m + 90° + 90°;8.8;oil\n`)).not.toHaveProperty('doubt')
    expect(first(`${GRADED}A;M10;1 N·m;8.8;oil\n`).doubt?.[0]).toContain('hardly loads')
  })

  test('[TS12] plugs and pipe threads are not judged as bolts', () => {
    expect(first(`${GRADED}Oil drain plug;M14x1.5;60 N·m;8.8;oil\n`)).not.toHaveProperty('doubt')
    expect(first(`${GRADED}Elbow;R1/8;60 N·m;;\n`)).not.toHaveProperty('stop')
  })

  test('[TS13] no grade on any line is said once for the sheet; on some it is a doubt of those', () => {
    const none = readSheet('Item;Thread;Torque\nA;M8;22 N·m\nB;7/16-14;40 N·m\n', figures)
    expect(none.remarks).toContain('No grade is given: lines were judged as 8.8, inch threads as SAE 5.')
    expect(none.lines.filter(({ doubt }) => doubt)).toEqual([])
    const [, missing, unknown] = items(
      `${GRADED}A;M8;22 N·m;8.8;oil\nB;M8;22 N·m;;oil\nC;M8;22 N·m;Gr X;oil\n`,
    )
    expect(missing?.doubt).toEqual(['No grade is given: it was judged as 8.8.'])
    expect(unknown?.doubt).toEqual(['“Gr X” is not a grade known here: it was judged as 8.8.'])
  })

  test('[TS13] with an implausible torque the assumed grade is a doubt too', () => {
    expect(first('Item;Thread;Torque\nA;M8;60 N·m\n').doubt).toEqual([
      expect.stringContaining('past its yield'),
      'No grade is given: it was judged as 8.8.',
    ])
  })

  test('[TS13] a left-out pitch is said on the line, and is no doubt', () => {
    const line = first(`${GRADED}A;M8;22 N·m;8.8;oil\n`)
    expect(line.told).toEqual(['M8 is taken as M8x1.25, the coarse pitch.'])
    expect(line).not.toHaveProperty('doubt')
    expect(first(`${GRADED}A;M8x1;20 N·m;8.8;oil\n`)).not.toHaveProperty('told')
  })

  test('[TS13] lines without a thread are counted for the sheet', () => {
    expect(readSheet('Item;Torque\nA;22 N·m\nB;9 N·m\n', figures).remarks).toEqual([
      'No line has a thread: without one a torque is not judged.',
    ])
    expect(readSheet('Item;Thread;Torque\nA;M8;22 N·m\nB;;9 N·m\n', figures).remarks).toContain(
      'One line has no thread: without one a torque is not judged.',
    )
  })

  test('[TS10] one limit alone is no target, and the line says so', () => {
    const text = `${GRADED}A;M8x1;max 12 N·m;8.8;oil\n`
    expect(first(text).told).toEqual(['Only a limit is printed: the plan asks what to tighten to.'])
    expect(joints(text)[0]?.passes).toEqual([{ kind: 'torque', torqueNm: null }])
  })
})

describe('the decimal style of a sheet', () => {
  const COMMA = 'Item;Thread;Torque (N·m)\nA;M8;22,5\nB;M6;9,5\n'

  test('[TS14] 1,050 in a sheet of decimal commas is doubtful, with both readings', () => {
    const line = items(`${COMMA}C;M10;1,050\n`)[2]
    expect(line?.doubt?.[0]).toContain('“1,050” may be 1.05 or 1050')
    expect(line?.readings).toEqual(['1.05 N·m', '1050 N·m'])
  })
  test('[TS14] a number of the other style is doubtful, and is read as it proves', () => {
    const line = items(`${COMMA}C;M10;12.5\n`)[2]
    expect(says(line)).toBe('12.5 N·m')
    expect(line?.doubt).toEqual([
      '“12.5” has a decimal point; the sheet’s numbers have a decimal comma (“22,5” in line 2).',
    ])
  })
  test('[TS14] the style is said, also where only a thread proves it', () => {
    expect(readSheet(COMMA, figures).remarks[0]).toBe(
      'Numbers are read with a decimal comma, as “22,5” in line 2.',
    )
    expect(says(items('Item;Thread;Torque (N·m)\nA;M10x1,25;1.050\n')[0])).toBe('1050 N·m')
  })
  test('[TS14] thousands as the style has them are read, and judged', () => {
    expect(items(`${COMMA}C;M8;1.050\n`)[2]?.stop).toContain('1050 N·m is 20.9 times')
    expect(items('Item;Torque (N·m)\nA;22.5\nB;1,050\n')[1]).not.toHaveProperty('doubt')
  })
  test('[TS14] as many of one style as of the other decide nothing: it is asked', () => {
    expect(says(items('Item;Torque (N·m)\nA;22.5\nB;9,5\nC;1,050\n')[2])).toBe('unclear')
  })
  test('[TS14] nor does a foot-pound, which else speaks for the point', () => {
    expect(says(items('Item;Torque (lbf·ft)\nA;22.5\nB;9,5\nC;1.200\n')[2])).toBe('unclear')
    expect(says(items('Item;Torque (lbf·ft)\nA;22.5\nB;9\nC;1.200\n')[2])).not.toBe('unclear')
  })
})

describe('headings and columns', () => {
  test.each([
    ['Anziehdrehmoment [Nm]', 'N·m'],
    ['Anzugsmoment Nm', 'N·m'],
    ['Couple (m.kg)', 'kgf·m'],
    ['Couple de serrage (N.m)', 'N·m'],
    ['Par N·m', 'N·m'],
    ['Par de apriete (kgf·m)', 'kgf·m'],
    ['Coppia Nm', 'N·m'],
    ['Coppia di serraggio [kgm]', 'kgf·m'],
    ['Moment kpm', 'kgf·m'],
    ['Åtdragningsmoment, Nm', 'N·m'],
    ['Xyzzy (ft-lb)', 'lbf·ft'],
  ])('[TS15] “%s” carries its unit', (heading, unit) => {
    expect(readSheet(`Item;Thread;${heading}\nA;M10;4\n`, figures).columns[2]).toMatchObject({
      role: 'torque',
      unit,
    })
  })
  test.each([
    [
      'Pos.;Benennung;Gewinde;Anzahl;Drehmoment;Einheit;Festigkeitsklasse;Schmierung;Baugruppe;Bemerkung',
      'de',
    ],
    ['Rep.;Désignation;Filetage;Qté;Couple;Unité;Classe;Lubrification;Groupe;Remarques', 'fr'],
    ['Posición;Denominación;Rosca;Cantidad;Par;Unidad;Clase;Lubricación;Grupo;Observaciones', 'es'],
    ['Posizione;Denominazione;Filettatura;Q.tà;Coppia;Unità;Classe;Lubrificazione;Gruppo;Osservazioni', 'it'],
    [
      'Pos.nr;Benämning;Gänga;Antal;Åtdragningsmoment;Enhet;Hållfasthetsklass;Smörjning;Grupp;Anmärkning',
      'sv',
    ],
    ['Pos;Item;Thread;Qty;Torque;Unit;Grade;Lubrication;Step;Note', 'en'],
  ])('[TS15] %s', (headings) => {
    const { columns } = readSheet(`${headings}\n10;Abc;M10;4;40;Nm;8.8;oil;Def;ghi\n`, figures)
    expect(columns.map(({ role }) => role)).toEqual(
      'position item thread count torque unit grade lubrication group note'.split(' '),
    )
  })
  test('[TS15] “No.” counts pieces, or the lines where its numbers do', () => {
    expect(readSheet('No.;Item;Nm\n4;A;9\n2;B;9\n8;C;9\n', figures).columns[0]?.role).toBe('count')
    expect(readSheet('No.;Item;Nm\n1;A;9\n2;B;9\n3;C;9\n', figures).columns[0]?.role).toBe('position')
    expect(readSheet('Class;Item;Nm\nA;Head;9\nB;Cap;9\n', figures).columns[0]?.role).toBe('note')
  })
  test.each([
    ['Désignation;Vis;N.m\nCulasse;M10;40\nBielle;M9;30\n', 1, 'thread'],
    ['Item;Bolt;Nm\n1;M8;22\n2;M10;44\n', 0, 'position'],
    ['Pos;Thread;Nm\nFront left;M8;22\nRear;M10;44\n', 0, 'item'],
  ])('[TS15] what stands under a heading decides: %j', (text, index, role) => {
    expect(readSheet(text, figures).columns[index]?.role).toBe(role)
  })
  test('[TS16] no column of items is one remark, and positions name the joints', () => {
    const sheet = readSheet('Item;Thread;Nm\n1;M8;22\n2;M10;44\n', figures)
    expect(sheet.lines.filter(({ doubt }) => doubt)).toEqual([])
    expect(sheet.remarks).toContain('No column says what each line is for. Choose the one that does.')
    expect(joints('Item;Thread;Nm\n1;M8;22\n2;M10;44\n').map(({ title }) => title)).toEqual([
      'Position 1',
      'Position 2',
    ])
  })
  test('[TS16] what a heading does not say is one remark for the sheet; a torque under it is a doubt of its line', () => {
    const sheet = readSheet('Item;Thread;Nm;Zzz\nA;M8;22;4711\nB;M8;20;30 Nm + 90°\n', figures)
    expect(sheet.remarks).toContain('Column 4, “Zzz”, is used for nothing. Choose what it is, or “not used”.')
    expect(sheet.lines.map(({ doubt }) => doubt)).toEqual([
      undefined,
      undefined,
      ['One of its cells is under no known column.'],
    ])
    const unused = readSheet('Item;Thread;Nm;Zzz\nA;M8;22;4711\nB;M8;20;30 Nm\n', figures, {
      roles: { 3: 'none' },
    })
    expect(unused.lines.filter(({ doubt }) => doubt)).toEqual([])
    expect(unused.remarks.join()).not.toContain('Column 4')
  })

  test('[TS17] lines land in the step of their group, in their order; an empty one is that of the line above', () => {
    const text = 'Item,Thread,Nm,Group\nA,M8,22,Head\nB,M8,21,\nC,M8,20,Sump\nD,M8,19,head\n'
    const { plan } = sheetToPlan(readSheet(text, figures).lines, HEAD, figures)
    expect(plan.steps.map(({ title, joints: of }) => [title, of.map((joint) => joint.title)])).toEqual([
      ['Head', ['A', 'B', 'D']],
      ['Sump', ['C']],
    ])
  })
  test('[TS17] a number is named by its heading, and a section stands before it', () => {
    const steps = (text: string) =>
      sheetToPlan(readSheet(text, figures).lines, HEAD, figures).plan.steps.map(({ title }) => title)
    expect(steps('Item,Nm,Step\nA,22,1\nB,20,2\n')).toEqual(['Step 1', 'Step 2'])
    expect(steps('Item,Nm,Group\nENGINE,,\nA,22,Head\nB,20,Sump\n')).toEqual(['ENGINE: Head', 'ENGINE: Sump'])
  })

  test.each([
    ['Use', 'new bolts', 'one_use'],
    ['Use', 'always replace', 'one_use'],
    ['Bemerkung', 'neue Schrauben', 'one_use'],
    ['Ersetzen', 'ja', 'one_use'],
    ['Reuse', 'no', 'one_use'],
    ['Reuse', 'yes', 'reusable'],
    ['Replace', 'no', 'reusable'],
    ['Remplacement', 'oui', 'one_use'],
    ['Wiederverwendbar', 'nein', 'one_use'],
    ['Do not reuse', 'yes', undefined],
    ['Note', 'new bolts', 'one_use'],
    ['Note', 'no new bolts', undefined],
    ['Note', 'use new gasket', undefined],
  ])('[TS18] under “%s”, “%s” is %s', (heading, cell, use) => {
    const text = `Item;Thread;Nm;${heading}\nA;M8;22;${cell}\n`
    expect(first(text).use).toBe(use)
    const [joint] = joints(text)
    expect(joint?.use.kind).toBe(use ?? 'reusable')
    expect(joint?.notes?.includes('Whether they may be used again is not given.')).toBe(use === undefined)
  })
  test('[TS18] what does not say it for certain is a doubt', () => {
    expect(first('Item;Thread;Nm;Reuse\nA;M8;22;if not stretched\n').doubt).toEqual([
      '“if not stretched” does not say for certain whether they may be used again.',
    ])
  })
  test('[TS19] grade and lubrication come into the plan; a lubrication that is not known is told', () => {
    const text = `${GRADED}A;M8x1;20 N·m;10.9;dry or oiled\nB;M8x1;20 N·m;10.9;zzz\n`
    expect(joints(text)[0]).toMatchObject({ grade: '10.9', lubrication: 'dry or oiled' })
    expect(items(text).map(({ told }) => told)).toEqual([
      ['“dry or oiled” does not say exactly one lubrication: the line was judged from oiled to dry.'],
      ['“zzz” is not a lubrication known here: the line was judged from oiled to dry.'],
    ])
  })
  test('[TS20] repeated items and positions are told', () => {
    const lines = items('Pos;Item;Thread;Nm\n1;Head;M8;22\n2;Cap;M8;21\n2;Rod;M8;20\n3;head;M8;25\n')
    expect(lines.map(({ doubt }) => doubt)).toEqual([
      undefined,
      undefined,
      ['Line 4 repeats line 3: the same position 2.'],
      ['Line 5 repeats line 2: the same item and thread.'],
    ])
  })
  test('[TS20] numbered steps of one item are told; groups of another name are not', () => {
    expect(first('Item;Nm;Group\nHead;22;Left\nHead;22;Right\n')).not.toHaveProperty('doubt')
    expect(items('Item;Nm;Step\nHead;20;1\nHead;40;2\n')[1]?.doubt?.[0]).toContain('repeats line 2')
  })
  test('[TS20] where most lines bear the name of another, it is said once', () => {
    const sheet = readSheet(`Item;Thread;Nm\n${'Bolt;M8;20\n'.repeat(12)}`, figures)
    expect(sheet.remarks.at(-1)).toBe(
      '11 lines repeat the item of another. Line 3 repeats line 2: the same item and thread.',
    )
    expect(sheet.lines.filter(({ doubt }) => doubt)).toEqual([])
  })
})

describe('the bolt and its hole, where a sheet has columns for them', () => {
  const HOLED =
    'Item;Thread;Length;Thread length;Stack;Thread depth;Hole depth;Tapped in;Torque Nm;Grade;Lubrication\n'
  const line = (cells: string) => first(`${HOLED}Cover;${cells};22;8.8;oil\n`)
  test.each([
    ['M8x1.25;32;;10;14;18;cast iron', /^The bolt of 32 mm bottoms in its hole, and clamps nothing\./],
    ['M8x1.25;12;;10;14;18;', /^The bolt of 12 mm is too short for its hole/],
    ['M8x1.25;60;;20;45;50;cast iron', /its shank would reach the hole\. Measure how long its thread is\.$/],
    ['M8x1.25;24;;10;18;22;cast aluminium', /^22 N·m could strip the thread in the hole/],
    ['M8 x 32;;;10;14;18;cast iron', /^The bolt of 32 mm bottoms in its hole/],
    ['M8x1.25;long;;10;14;18;cast iron', /^“long” is not a length\.$/],
    ['M8x1.25;20;;10;24;18;cast iron', /^The thread is 24 mm deep in a hole of 18 mm/],
  ] as const)('[TS22] %s', (cells, words) => {
    const { doubt } = line(cells)
    expect(doubt?.[0]).toMatch(words)
  })
  test('[TS22] a fit that is right is no doubt; one that is threaded further than the standard neither', () => {
    expect(line('M8x1.25;25;;10;18;22;cast iron')).not.toHaveProperty('doubt')
    expect(line('M8x1.25;60;45;20;45;50;cast iron')).not.toHaveProperty('doubt')
  })
  test('[TS22] both come into the plan, and its check says the same of them', () => {
    const text = `${HOLED}Cover;M8x1.25;32;;10;14;18;cast iron;22;8.8;oil\n`
    const { plan, cautions } = sheetToPlan(readSheet(text, figures).lines, HEAD, figures)
    expect(plan.steps[0]?.joints[0]).toMatchObject({
      lengthMm: 32,
      hole: { material: 'cast iron', stackMm: 10, threadMm: 14, depthMm: 18 },
    })
    expect(cautions.map(({ problem }) => problem)).toEqual([
      expect.stringMatching(/^J2: bolt of 32 mm bottoms in its hole/),
    ])
  })
  test('[TS22] what the columns leave open is said, and no hole is made of half of it', () => {
    const open = line('M8x1.25;25;;10;;;')
    expect(open.told).toEqual([expect.stringContaining('one of them is not given')])
    expect(joints(`${HOLED}Cover;M8x1.25;25;;10;;;;22;8.8;oil\n`)[0]).not.toHaveProperty('hole')
    expect(line('M8x1.25;25;;10;18;;cast iron').told?.join(' ')).toContain('taken as deep as its thread')
  })
  test('[TS22] in other languages and in inches', () => {
    const german = `Benennung;Gewinde;Länge (mm);Klemmlänge;Gewindetiefe;Bohrtiefe;Anzugsmoment (Nm);Festigkeitsklasse\nDeckel;M8x1.25;32;10;14;22;22;8.8\n`
    expect(first(german).doubt?.[0]).toMatch(/^The bolt of 32 mm bottoms/)
    const inches = `Item;Thread;Length (in);Stack (in);Thread depth (in);Hole depth (in);Torque (lb-ft);Grade\nCover;3/8-16 UNC;2;0.5;0.75;1;20;SAE 5\n`
    expect(first(inches).lengths?.length).toBeCloseTo(50.8, 9)
    expect(first(inches).doubt?.[0]).toMatch(/bottoms in its hole/)
  })
})

describe('what a line is about', () => {
  test.each([
    ['Spark plug', 'plug'],
    ['Spark plug cover bolts', 'bolt'],
    ['Injector clamp bolt', 'bolt'],
    ['Banjo bolt', 'union'],
    ['Zündkerze', 'plug'],
    ['Ölablassschraube', 'plug'],
    ['Zylinderkopfschraube', 'bolt'],
    ['Stehbolzenmutter', 'nut'],
    ['Vis de bougie', 'bolt'],
    ['Bougie', 'plug'],
    ['Tuerca del perno', 'nut'],
    ['Candela', 'plug'],
    ['Tändstift', 'plug'],
    ['Coolant temperature sensor', 'sender'],
    ['Cover', 'bolt'],
  ])('[TS12] %s is a %s', (item, fastener) => {
    expect(joints(`Item;Torque Nm\n${item};20\n`)[0]?.fastener).toBe(fastener)
  })
  test('[TS12] a spark plug is not called light for a bolt of its thread', () => {
    expect(first(`${GRADED}Spark plug;M14x1.25;25 N·m;;\n`)).not.toHaveProperty('doubt')
    expect(first(`${GRADED}Spark plug;M14x1.25;2.5 N·m;;\n`).doubt?.[0]).toMatch(
      /is little for an M14x1.25 plug/,
    )
  })
})

describe('columns as they come', () => {
  test('[TS4] two units in the heading, an angle behind both numbers', () => {
    const line = first('Item,Thread,Tightening torque N·m {kgf·m}\nHead bolt,M10x1.25,39 {4.0} + 90°\n')
    expect(says(line)).toBe('39 N·m, then +90°')
  })
  test('[TS2] an item that ends with its thread is an item, not a thread', () => {
    const sheet = readSheet(
      'Head bolts M10 ..... 65 Nm\nRocker cover M6 ..... 9 Nm\nSump M8 ..... 22 Nm\n',
      figures,
    )
    expect(sheet.columns.map(({ role }) => role)).toEqual(['item', 'torque'])
    const [line] = sheet.lines
    expect(line).toMatchObject({ item: 'Head bolts M10', thread: 'M10' })
  })
  test('[TS15] a grade and a note in other words', () => {
    const sheet = readSheet('Detalj;Gänga;Moment (Nm);Klass;Kommentar\nTopplock;M10;45;10.9;x\n', figures)
    expect(sheet.columns.map(({ role }) => role)).toEqual(['item', 'thread', 'torque', 'grade', 'note'])
  })
})
