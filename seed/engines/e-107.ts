/**
 * E-107: ran on the bench, every step signed, and not releasable: rod cap 3 never got its second signature, and
 * the sump is on.
 *
 * The rules refuse the claim of a step that hides unproven class A. The closing check carries Bram’s signature, so
 * it was claimed, and the only way there is a supervisor’s word: Odile waived the hiding that morning from the
 * slip, the second look to follow before the run, and it did not. The waiver proves nothing, and the record shows
 * it beside Bram’s closing check, which says what the record never did. (The plan asks the check as a look: a gate
 * that is reckoned from signatures could not have been answered wrongly.)
 */
import type { Story } from '../play'

export const e107: Story = {
  jobId: 'e-107',
  planId: 'tolvane-b4',
  tell({ open, promise, step, say, note, hold }) {
    open(-12, {
      number: 'E-107',
      engine: { model: 'Tolvane B4', serial: 'TB4-2251', drives: 'baler' },
      owner: 'Wendry Contracting',
      agreed: 'Full rebuild',
    })
    promise(-12, '16:40', 1, 'Baling starts the day after; they collect it.')
    step('A1', 'kofi', -11, '08:30')
    step('B1', 'kofi', -10, '09:00', { second: 'bram' })
    step('B3', 'kofi', -9, '14:00', { second: 'bram' })
    step('B2', 'kofi', -8, '15:30', {
      second: { 'cap-1': 'suvi', 'cap-2': 'suvi', 'cap-4': 'suvi', step: 'bram' },
      setOrder: ['cap-1', 'cap-2', 'cap-4', 'cap-3'],
      pins: {
        'second cap-1': '16:00',
        'ROD 3/2': '16:10',
        'second cap-2': '16:20',
        'ROD 7/2': '16:30',
        'second cap-4': '16:45',
        'ROD 5/2': '16:58',
        'second step': '17:10',
      },
      values: { turning: [9.5] },
    })
    say(-7, '07:50', 'odile', {
      type: 'Waive',
      what: { kind: 'hiding', stepId: 'B4' },
      reason:
        'The test stand is booked. Close it; for rod cap 3 I look through the side cover before the run and give the second signature then.',
    })
    step('B4', 'bram', -7, '08:50')
    step('C1', 'kofi', -6, '09:00', { second: 'suvi' })
    step('C2', 'kofi', -6, '11:00')
    step('C3', 'jory', -6, '13:10')
    step('D1', 'kofi', -5, '13:00')
    step('D2', 'kofi', -4, '13:00')
    step('E1', 'kofi', -1, '09:30')
    note(
      -1,
      '11:30',
      'kofi',
      'Ran an hour on the bench: quiet, dry, pressure good. For Odile to look through.',
      'E1',
    )
    note(
      -1,
      '16:10',
      'suvi',
      'I signed caps 1, 2 and 4 and went home; cap 3 was done after that. The sump went on next morning. The paint marks, seen through the side cover, show no slip; they do not show tightness.',
      'B2',
    )
    hold(0, '08:09', 'dov', {
      kind: 'question',
      stepIds: ['C1'],
      what: 'Odile to decide: TW-12 failed its check. Head bolts set to 70 got about 74.2 (+6 %, limit 5 %); they can be reached under the rocker cover',
      expected: [0, '10:30'],
    })
    note(
      0,
      '08:11',
      'dov',
      'TW-12 failed its check. Pass 2 of the head bolts, set to 70: about 74.2 applied, class A, out of limits.',
      'C1',
    )
  },
}
