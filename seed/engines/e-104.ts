/**
 * E-104: dressing, and the covers come off again. Two traps of Jory’s: a scale in another unit, and a shroud over
 * bolts that are only hand-tight.
 *
 * The shroud could not have been claimed: its needs were open and it hides class A that is not proven. Jory fitted
 * it without asking. What happened is recorded all the same, as a fact without a claim, flagged so and without a
 * signature; nobody waived anything.
 */
import type { JobCommand } from '../../shared/job/commands'
import type { Story } from '../play'

export const e104: Story = {
  jobId: 'e-104',
  planId: 'stavenmoor-g12',
  tell({ open, promise, step, say, note }) {
    open(-8, {
      number: 'E-104',
      engine: { model: 'Stavenmoor G12', serial: 'SG12-3310', drives: 'generating set' },
      owner: 'Harbour Cold Store',
      agreed: 'Reseal, rings',
    })
    promise(-8, '16:40', 2, 'The cold store hires a set by the week until theirs is back.')
    step('A1', 'kofi', -7, '09:00')
    step('B1', 'kofi', -6, '10:00')
    step('B2', 'kofi', -5, '10:00', { second: 'bram' })
    step('C1', 'kofi', -4, '10:00', { second: 'suvi' })
    step('C2', 'kofi', -3, '10:30')
    step('D3', 'jory', -2, '08:30')
    step('D4', 'jory', -2, '10:00')

    say(
      -2,
      '14:00',
      'kofi',
      { type: 'ClaimStep', stepId: 'D2' },
      { type: 'PlaceFasteners', jointId: 'COOLER', positions: [1, 2, 3, 4], condition: 'hand_tight' },
      {
        type: 'PutDownStep',
        stepId: 'D2',
        note: 'Cooler on, four bolts hand-tight only. Torque and second signature tomorrow.',
      },
    )
    say(
      -1,
      '15:40',
      'jory',
      { type: 'EnterScale', jointId: 'SHROUD', pass: 1, wrenchId: 'TW-13', value: 8 },
      { type: 'CountRound', jointId: 'SHROUD', pass: 1, wrenchId: 'TW-13', count: 9 },
    )
    note(-1, '15:45', 'jory', 'Shroud on, nine bolts.', 'D5')

    const rocker = { jointId: 'RC-M6', pass: 1, wrenchId: 'TW-14' }
    const click = (position: number): JobCommand => ({
      type: 'TakeReading',
      ...rocker,
      position,
      how: 'clicked',
    })
    say(0, '08:44', 'jory', { type: 'ClaimStep', stepId: 'D1' }, { type: 'EnterScale', ...rocker, value: 9 })
    say(0, '08:48:15', 'jory', ...[1, 2, 3, 4, 5, 6, 7, 8].map(click))
    note(
      0,
      '09:20',
      'kofi',
      'TW-14 reads lbf·ft only: 9 on it is 12.2 N·m, and it is not reliable that low. All eight out, look at the threads, fit new bolts. And the shroud comes off again for the cooler.',
      'D1',
    )
  },
}
