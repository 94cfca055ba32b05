/**
 * E-103: long block. A stud hole with an insert that cures till 15:00, and one stud nut read out of band.
 *
 * A hold names steps, not single positions: so the rocker box as a whole carries it, and Kofi, who holds the step
 * since before, goes on with the other nuts.
 */
import type { JobCommand } from '../../shared/job/commands'
import type { Story } from '../play'

export const e103: Story = {
  jobId: 'e-103',
  planId: 'brendlow-615',
  tell({ clock, open, promise, step, say, note, hold }) {
    open(-8, {
      number: 'E-103',
      engine: { model: 'Brendlow 615 Twin', serial: 'BL61-0772', drives: 'motorcycle' },
      owner: 'Mr Oake',
      agreed: 'Top end',
    })
    promise(-8, '16:40', 4, 'Wanted for the museum’s open day.')
    step('A1', 'kofi', -6, '08:15')
    step('B1', 'kofi', -5, '08:15')
    step('B2', 'kofi', -4, '08:15', { second: 'bram' })
    step('C1', 'kofi', -3, '08:30', { second: 'odile' })
    const jointId = 'RB-stud'
    say(-1, '15:30', 'kofi', {
      type: 'RecordHole',
      jointId,
      position: 4,
      condition: 'stripped',
      note: 'Thread pulled out of the aluminium at the trial fit.',
    })
    note(
      -1,
      '15:30',
      'kofi',
      'The thread of rocker box stud hole 4 pulled out of the aluminium at the trial fit. Stud out, hole cleaned, nothing tightened.',
      'C2',
    )
    // 12 h from 03:00, for the reason the note gives: what is recorded is when it ends.
    say(-1, '16:50', 'kofi', {
      type: 'RecordHole',
      jointId,
      position: 4,
      condition: 'insert',
      insert: { kind: 'solid', lengthMm: 16, setDownMm: 0.5, outerThread: 'M12x1.5' },
      threadMm: 18.5,
      cureMinutes: 22 * 60 + 10,
      note: 'Bonded. Stud to be shortened from 60 to 58.',
    })
    note(
      -1,
      '16:50',
      'kofi',
      `Solid bushing insert bonded into hole 4. Usable depth now 18.5, before 20; stud shortened from 60 to 58. The shed is too cold at night for the resin, so its 12 h count from 03:00, when the heater comes on: cured ${clock.say(0)} 15:00.`,
      'C2',
    )

    const click = (position: number): JobCommand => ({
      type: 'TakeReading',
      jointId,
      pass: 1,
      position,
      how: 'clicked',
      wrenchId: 'TW-13',
    })
    say(0, '07:45', 'kofi', { type: 'ClaimStep', stepId: 'C2' })
    say(0, '07:46', 'kofi', {
      type: 'PlaceFasteners',
      jointId,
      positions: [4],
      condition: 'reused',
      lengthMm: 58,
    })
    hold(0, '07:47', 'kofi', {
      kind: 'damage',
      stepIds: ['C2'],
      what: 'insert in stud hole 4 is curing; then three pulls, and Odile to decide whether 22 stays',
      expected: [0, '15:00'],
    })
    say(
      0,
      '09:07',
      'kofi',
      { type: 'EnterScale', jointId, pass: 1, wrenchId: 'TW-13', value: 22 },
      click(1),
      click(2),
    )
    say(0, '09:10', 'kofi', {
      type: 'TakeReading',
      jointId,
      pass: 1,
      position: 3,
      how: 'indicated',
      wrenchId: 'IW-01',
      value: 26.4,
    })
    note(
      0,
      '09:12',
      'kofi',
      'Nut 3 was heavy to turn, so I pulled it with IW-01: 26.4, limits 19.8 to 24.2. Left as it is. Slacken fully, look at stud and thread, fit a new nut, tighten again.',
      'C2',
    )
  },
}
