/**
 * E-102: short block, stopped. Liner 3 came chipped and was found this morning; three liners are in.
 *
 * Parts, damage reports and borrowed tools get rooms of their own later; until then they stand as a hold and notes.
 */
import type { Story } from '../play'

export const e102: Story = {
  jobId: 'e-102',
  planId: 'halvard-f52',
  tell({ clock, open, promise, step, say, note, hold }) {
    open(-9, {
      number: 'E-102',
      engine: { model: 'Halvard F52', serial: 'HF52-1138', drives: 'tractor' },
      owner: 'Mrs Rook, Uphill Farm',
      agreed: 'Liners, pistons, bearings',
    })
    promise(-9, '16:40', 5, 'All parts here but one liner; needed before ploughing.')
    step('A1', 'jory', -8, '08:10', {})
    step('A2', 'suvi', -8, '09:30')
    step('B1', 'suvi', -6, '08:00')
    step('B2', 'suvi', -5, '08:00', { second: 'bram', values: { 'end-float': [0.18], turning: [5.1] } })

    const stepId = 'B3'
    const protrusion = (place: string, value: number) =>
      ({
        type: 'TakeMeasurement',
        stepId,
        measurementId: 'protrusion',
        place,
        value,
        instrument: DIAL,
      }) as const
    say(-3, '13:00', 'suvi', { type: 'ClaimStep', stepId })
    say(
      -3,
      '14:10',
      'suvi',
      protrusion('liner 1', 0.08),
      protrusion('liner 2', 0.09),
      protrusion('liner 4', 0.08),
    )
    say(-3, '14:20', 'suvi', {
      type: 'PutDownStep',
      stepId,
      note: 'Liners 1, 2 and 4 in. Liner 3 is on its way from Northmere; the press stays set up.',
    })
    note(
      -3,
      '14:25',
      'dov',
      `Liner press XB-01 is borrowed from Gathlow Farm Services; due back ${clock.say(3)}.`,
      stepId,
    )
    note(-2, '11:00', 'dov', 'Liner 3 (NP-5213) received from Northmere, box not opened yet.', stepId)

    hold(0, '07:40', 'dov', {
      kind: 'damage',
      stepIds: [stepId],
      what: `Liner 3 (NP-5213) arrived damaged (chipped flange). Report to Northmere by ${clock.say(1)} 17:00`,
      expected: [3, '12:00'],
    })
    note(
      0,
      '07:44',
      'dov',
      'Received two days ago, opened today. Northmere want photos within three working days, the box kept and the liner not fitted. Box and liner on shelf S2; replacement requested.',
      stepId,
    )
    note(
      0,
      '07:46',
      'dov',
      `The replacement comes on ${clock.say(3)}, and the press is due back on the same day. Ask Gathlow for two more days.`,
      stepId,
    )
    note(
      0,
      '08:08',
      'dov',
      'TW-12 failed its check: set to 110 it gave about 119.9. It was used on all ten main bolts, class A; the sump is still off. Odile to decide.',
      'B2',
    )
    hold(0, '08:10', 'dov', {
      kind: 'question',
      stepIds: ['B6'],
      what: 'Odile to decide before the sump covers them: main bolts were tightened with TW-12',
      expected: [0, '10:30'],
    })
  },
}

const DIAL = 'dial gauge DI-05'
