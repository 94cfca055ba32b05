/** E-105: head nuts broken off in the third pass; torque only, so that pass again from its first nut. */
import type { Story } from '../play'

export const e105: Story = {
  jobId: 'e-105',
  planId: 'ottersby-s9',
  tell({ open, promise, step, begin }) {
    open(-4, {
      number: 'E-105',
      engine: { model: 'Ottersby S9', serial: 'OS9-0356', drives: 'ferry launch' },
      owner: 'Ferry Volunteers',
      agreed: 'Head, valves',
    })
    promise(-4, '16:40', 3, 'Their second launch fills in until then.')
    step('A1', 'suvi', -2, '08:20')
    step('A2', 'suvi', -1, '13:20')
    begin('B1', 'suvi', 0, '09:15', {
      joint: 'H-B1',
      fullPasses: 2,
      through: 4,
      pins: { 'H-B1 1/3': '09:29' },
      at: '09:30',
      note: 'Called to the phone. Pass 3 got as far as nuts 1 and 4.',
    })
  },
}
