/**
 * Torque sheets: how many printed torques are read in a second, and how long a sheet of 2,000 lines takes from its text to
 * lines gone through and a plan in draft; beside the bare parting of the same text into cells.
 */
import Papa from 'papaparse'
import { isRefusal } from '../../../shared/log'
import { readSheet } from '../../../shared/sheet'
import { readSpec } from '../../../shared/spec'
import { draftFrom } from '../../../web/pages/shop/sheet/make-draft'
import { EMPTY_WORK, restAs, workLines } from '../../../web/pages/shop/sheet/sheet-work'
import { figures } from '../../shop/words'
import { interleaved, median } from '../harness/stats'
import type { Figure } from './figure'

const LINES = 2000
/** In the notations of the trade, a contradiction and a bare number among them. */
const PRINTED = [
  (n: number) => `${n} ±4 N·m`,
  (n: number) => `${n} N·m (${Math.round(n * 0.737562)} ft. lbs.)`,
  (n: number) => `${n} to ${n + 10} ft. lbs.`,
  (n: number) => `${n} Nm + 90° + 90°`,
  (n: number) => `${n} Ib-ft`,
  (n: number) => `${n} N·m (${n} in-lb)`,
  (n: number) => `${n}`,
]
const printedAt = (i: number) => (PRINTED[i % PRINTED.length] as (n: number) => string)(20 + (i % 80))

const SHEET = [
  'Item\tThread\tQty\tTorque',
  ...Array.from({ length: LINES }, (_, i) =>
    i % 50 === 0
      ? `Cover ${String.fromCharCode(97 + ((i / 50) % 26))}`
      : `Bolt\tM10\t${1 + (i % 12)}\t${printedAt(i)}`,
  ),
].join('\n')

async function took(work: () => unknown): Promise<number> {
  const from = performance.now()
  work()
  return performance.now() - from
}

export const sheets: Figure = {
  name: 'sheets',
  what: `a torque sheet of ${LINES} lines`,
  atMostSeconds: 120,
  async run({ rounds }) {
    const cells = () => Papa.parse<string[]>(SHEET, { delimiter: '\t' }).data
    const whole = await interleaved(rounds, {
      ours: () =>
        took(() => {
          const sheet = readSheet(SHEET, figures)
          if (sheet.lines.length !== LINES + 1) throw new Error(`${sheet.lines.length} lines came back.`)
          const work = restAs(EMPTY_WORK, workLines(sheet, EMPTY_WORK), 'B')
          draftFrom(workLines(sheet, work), { id: 'x', title: 'x', family: 'x', source: 'x' })
        }),
      reference: () => took(cells),
    })
    const reads: number[] = []
    for (let round = 0; round <= rounds; round++) {
      let read = 0
      const ms = await took(() => {
        for (let i = 0; i < LINES; i++) if (!isRefusal(readSpec(printedAt(i)))) read += 1
      })
      if (read === 0) throw new Error('Nothing was read.')
      if (round > 0) reads.push((LINES / ms) * 1000)
    }
    return [
      {
        figure: 'sheets',
        what: `${this.what}: text to plan in draft`,
        unit: 'ms',
        ours: median(whole.ours),
        reference: median(whole.reference),
        beside: 'the same text parted into cells, nothing read',
      },
      {
        figure: 'sheets',
        what: 'printed torques read',
        unit: '/s',
        ours: median(reads),
        notes: ['every notation in turn; one in seven is a bare number, which is asked with its readings'],
      },
    ]
  },
}
