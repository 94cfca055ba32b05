/** E-106: measuring, 11 of 14 readings in, two of them out; everything behind waits for the customer’s yes. */
import type { JobCommand } from '../../shared/job/commands'
import type { Story } from '../play'

const REBUILD = ['B2', 'C1', 'C2', 'C3', 'D1', 'D2', 'E1', 'F1', 'G1']

export const e106: Story = {
  jobId: 'e-106',
  planId: 'grendale-p60',
  tell({ clock, open, promise, step, say, note, hold }) {
    open(-5, {
      number: 'E-106',
      engine: { model: 'Grendale P60', serial: 'GP60-0198', drives: 'irrigation pump' },
      owner: 'Three Ditch Growers',
      agreed: 'Inspect and quote, then rebuild',
    })
    promise(-5, '16:40', 16, 'Needed for planting. Estimate 4,150.')
    step('A1', 'jory', -4, '10:30')
    const entry = (measurementId: string, place: string, value: number, instrument: string): JobCommand => ({
      type: 'TakeMeasurement',
      stepId: 'B1',
      measurementId,
      place,
      value,
      instrument,
    })
    const mains = [0.01, 0.03, 0.01, 0.01, 0.015]
    const bores = [0.06, 0.07, 0.06, 0.08]
    say(-1, '13:00', 'bram', { type: 'ClaimStep', stepId: 'B1' })
    say(
      -1,
      '13:15',
      'bram',
      entry('end-float', 'crank', 0.34, 'dial gauge DI-05'),
      ...mains.map((value, n) => entry('main-oval', `main ${n + 1}`, value, 'bore gauge BG-03')),
      ...bores.map((value, n) => entry('bore', `cyl ${n + 1}`, value, 'bore gauge BG-03')),
      entry('pin-oval', 'pin 1', 0.01, 'micrometer'),
    )
    say(-1, '13:50', 'bram', {
      type: 'PutDownStep',
      stepId: 'B1',
      note: 'Eleven of fourteen measured. Rod journals 2 to 4 still to measure.',
    })
    note(
      -1,
      '14:00',
      'bram',
      `Out of limits: crank end float 0.34 (0.10 to 0.28), main 2 oval by 0.03 (at most 0.02). Needs grinding and oversize thrust washers; Ledder & Daughter quote six working days from drop-off.`,
      'B1',
    )
    hold(-1, '14:30', 'hattie', {
      kind: 'approval',
      stepIds: REBUILD,
      what: 'the estimate goes up from 4,150 to 4,900 (+18 %), for grinding and oversize thrust washers',
      expected: [0, '16:00'],
    })
    note(
      -1,
      '14:35',
      'hattie',
      `If they do not agree by ${clock.say(0)}, the honest date is ${clock.say(21)}, after planting.`,
    )
  },
}
