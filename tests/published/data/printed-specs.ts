/**
 * Torques as manuals print them, carried over as data with what they say.
 *
 * status `memory`: seen on a service manual’s page, which one was not kept. `task`: a notation named by the task
 * this room was made for. `common practice`: the trade prints so, no source. Torques in the first printed unit.
 */
import type { TorqueUnit } from '../../../shared/units'

export interface PrintedSpec {
  text: string
  status: 'memory' | 'task' | 'common practice'
  unit: TorqueUnit
  /** In `unit`: a torque, or [nominal, min, max] with null for what is not printed; angles as { deg }. */
  passes: (
    | number
    | [number | null, number | null, number | null]
    | { deg: number }
    | { slacken: number | null }
  )[]
  contradicts?: true
}

export const PRINTED_SPECS: PrintedSpec[] = [
  { text: '24 ±4 N•m (18 ±3 lb-ft)', status: 'task', unit: 'N·m', passes: [[24, 20, 28]] },
  { text: '79 Nm (806 kgf-cm, 58 ft. lbs.)', status: 'task', unit: 'N·m', passes: [79] },
  { text: '12,5 daN·m', status: 'task', unit: 'daN·m', passes: [12.5] },
  { text: '3.2 mkg', status: 'task', unit: 'kgf·m', passes: [3.2] },
  { text: '370 to 380 ft. lbs.', status: 'task', unit: 'lbf·ft', passes: [[null, 370, 380]] },
  { text: '30 Nm + 90° + 90°', status: 'task', unit: 'N·m', passes: [30, { deg: 90 }, { deg: 90 }] },
  { text: '27 Nm plus 1/4 turn', status: 'task', unit: 'N·m', passes: [27, { deg: 90 }] },
  { text: '95 N·m (70 in-lb)', status: 'memory', unit: 'N·m', passes: [95], contradicts: true },
  // Head bolts of four engines, steps as printed.
  {
    text: '20 Nm; 40 Nm; +60°; +80°',
    status: 'memory',
    unit: 'N·m',
    passes: [20, 40, { deg: 60 }, { deg: 80 }],
  },
  { text: '27 Nm; +90°; +90°', status: 'memory', unit: 'N·m', passes: [27, { deg: 90 }, { deg: 90 }] },
  { text: '48; 75; 75 Nm; +90°', status: 'memory', unit: 'N·m', passes: [48, 75, 75, { deg: 90 }] },
  { text: '61; 88; 88 Nm; +90°', status: 'memory', unit: 'N·m', passes: [61, 88, 88, { deg: 90 }] },
  {
    text: '18.6—25.5 N·m {1.90—2.60 kgf·m, 13.8—18.8 ft·lbf}',
    status: 'common practice',
    unit: 'N·m',
    passes: [[null, 18.6, 25.5]],
  },
  { text: '120 N·m (1,220 kgf·cm, 88 ft·lbf)', status: 'common practice', unit: 'N·m', passes: [120] },
  {
    text: '0.9 - 1.1 kg-m (6.5 - 8.0 ft-lb)',
    status: 'common practice',
    unit: 'kgf·m',
    passes: [[null, 0.9, 1.1]],
  },
  {
    text: '1st 40 Nm, 2nd 70 Nm, 3rd back off 180°, 4th 40 Nm, 5th +90°',
    status: 'common practice',
    unit: 'N·m',
    passes: [40, 70, { slacken: 180 }, 40, { deg: 90 }],
  },
]
