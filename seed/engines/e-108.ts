/**
 * E-108: the second Orrath Q31, delivered five weeks ago, in warranty. Its record is whole; TW-12 was in it.
 *
 * Every step was done and signed, the bench proof released to fitting, the last stage to its owner.
 */
import { SETTLED_NM } from '../bench'
import type { Story } from '../play'

export const e108: Story = {
  jobId: 'e-108',
  planId: 'orrath-q31',
  tell({ open, promise, step, say, note }) {
    open(-46, {
      number: 'E-108',
      engine: { model: 'Orrath Q31', serial: 'OQ31-20588', drives: 'launch Little Auk' },
      owner: 'Fen Pilots',
      agreed: 'Full rebuild',
    })
    promise(-46, '16:40', -25, 'Four weeks; the pilots hire a launch meanwhile.')
    step('A1', 'jory', -45, '08:00')
    step('A2', 'jory', -45, '10:00')
    step('A3', 'suvi', -44, '08:10', { second: 'bram' })
    step('B1', 'bram', -41, '08:30')
    step('B2', 'bram', -40, '08:30', { second: 'suvi' })
    step('B3', 'suvi', -40, '10:00')
    step('B4', 'suvi', -40, '13:00', { second: 'bram' })
    step('B5', 'bram', -39, '08:00')
    step('B6', 'jory', -39, '09:00')
    step('B7', 'suvi', -39, '10:00')
    step('C1', 'suvi', -39, '11:00', { second: 'bram' })
    step('C2', 'suvi', -39, '13:30', { second: 'bram' })
    step('C3', 'jory', -38, '08:00')
    step('C4', 'jory', -38, '09:30')
    step('C5', 'bram', -38, '10:30', { second: 'suvi' })
    step('C6', 'jory', -37, '08:00')
    step('C7', 'bram', -37, '09:30', { second: 'suvi' })
    step('C8', 'bram', -37, '11:00', { second: 'suvi' })
    step('C9', 'bram', -37, '13:00', { second: 'odile' })
    step('D1', 'bram', -36, '08:30', { second: 'suvi' })
    step('D2', 'suvi', -36, '10:30')
    step('D3', 'bram', -36, '13:00')
    step('D4', 'jory', -36, '14:00')
    step('E1', 'bram', -35, '08:00', { second: 'suvi', values: { 'spill-timing': [17.1] } })
    step('E2', 'jory', -35, '10:00')
    step('E3', 'suvi', -35, '11:00', { second: 'bram' })
    step('E4', 'jory', -35, '13:00')
    step('E5', 'bram', -35, '14:00', { second: 'suvi' })
    step('E6', 'jory', -35, '15:00')
    step('F1', 'jory', -34, '08:00')
    step('F2', 'jory', -34, '09:00')
    step('F3', 'suvi', -34, '10:00')
    step('F4', 'suvi', -34, '11:00', { second: 'bram' })
    step('F5', 'bram', -33, '08:30', { second: 'suvi' })
    const torqueNm = SETTLED_NM['G-F6'] ?? 0
    say(-33, '09:50', 'odile', {
      type: 'SettleValue',
      jointId: 'G-F6',
      pass: 1,
      torqueNm,
      minNm: torqueNm * 0.9,
      maxNm: torqueNm * 1.1,
      basis: { kind: 'word', competence: 'Odile Marrow, supervisor, for this engine alone' },
      reason:
        'No published torque. Bronze in bronze with a fibre washer at low pressure; looked at cold after the first heat.',
    })
    step('F6', 'jory', -33, '10:00')
    step('F7', 'suvi', -33, '11:00', { second: 'bram' })
    step('F8', 'suvi', -33, '13:00', { second: 'bram' })
    step('G1', 'jory', -32, '08:00')
    step('G2', 'jory', -31, '08:30')
    step('G3', 'jory', -31, '09:30')
    step('G4', 'bram', -31, '11:00', { second: 'suvi' })
    step('H1', 'suvi', -31, '13:00')
    step('H2', 'bram', -31, '14:00')
    step('H3', 'odile', -30, '09:00', { second: 'bram' })
    say(-30, '10:30', 'odile', { type: 'Release', kind: 'to_fitting' })
    step('J1', 'bram', -29, '08:00', { second: 'suvi' })
    step('J2', 'bram', -28, '08:00', { second: 'suvi' })
    step('J3', 'suvi', -28, '11:00')
    step('K1', 'bram', -27, '09:00', { second: 'suvi' })
    step('K2', 'bram', -26, '08:00', { second: 'suvi' })
    step('K3', 'odile', -25, '09:00', { second: 'bram' })
    say(-25, '11:30', 'odile', { type: 'Release', kind: 'to_owner' })
    note(-25, '11:45', 'hattie', 'Delivered at the pilots’ quay, record handed over. In warranty from today.')
    note(
      -3,
      '10:00',
      'hattie',
      'Fen Pilots rang: skipper has put a new oil filter on himself. Ours had 90 hours.',
    )
    note(
      0,
      '08:13',
      'dov',
      'TW-12 failed its check; it was used here on B2, C6, C7, C9, D1, E3, G2, G3 and G4. The engine has been delivered since. Odile to decide what the owner is told.',
    )
  },
}
