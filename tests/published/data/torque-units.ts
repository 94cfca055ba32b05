/**
 * Torque factors and conversions from outside, carried over as data.
 *
 * status `found`: the printed figure was seen quoted in a stored public document. `computed`: evaluated
 * with exact fractions from the definitions (1 lb = 0.45359237 kg, g_n = 9.80665 m/s², 1 in = 25.4 mm,
 * from memory, and agreed by two independent libraries). Figures are in N·m unless named.
 */
import type { TorqueUnit } from '../../../shared/units'

export interface Factor {
  unit: TorqueUnit
  /** Exact N·m in one of the unit, as a fraction of whole numbers. */
  exact: [bigint, bigint]
  /** As printed, to the digits printed. */
  printed?: string
  source: string
  status: 'found' | 'computed'
}

const SP811 = 'NIST SP 811 (2008), appendix B.8/B.9'
const DEFINITIONS = 'definitions of the pound, the inch and standard gravity'
const PREFIX = 'SI prefixes'

export const FACTORS: Factor[] = [
  { unit: 'N·m', exact: [1n, 1n], source: PREFIX, status: 'computed' },
  { unit: 'N·mm', exact: [1n, 1000n], source: PREFIX, status: 'computed' },
  { unit: 'cN·m', exact: [1n, 100n], source: PREFIX, status: 'computed' },
  { unit: 'dN·m', exact: [1n, 10n], source: PREFIX, status: 'computed' },
  { unit: 'daN·m', exact: [10n, 1n], source: PREFIX, status: 'computed' },
  { unit: 'kN·m', exact: [1000n, 1n], source: PREFIX, status: 'computed' },
  { unit: 'kgf·m', exact: [196133n, 20000n], printed: '9.80665', source: SP811, status: 'found' },
  { unit: 'kgf·cm', exact: [196133n, 2000000n], source: DEFINITIONS, status: 'computed' },
  {
    unit: 'lbf·ft',
    exact: [3389544870828501n, 2500000000000000n],
    printed: '1.355818',
    source: SP811,
    status: 'found',
  },
  {
    unit: 'lbf·in',
    exact: [1129848290276167n, 10000000000000000n],
    printed: '0.1129848',
    source: SP811,
    status: 'found',
  },
  {
    unit: 'ozf·in',
    exact: [1129848290276167n, 160000000000000000n],
    printed: '0.007061552',
    source: SP811,
    status: 'found',
  },
]

export interface Conversion {
  id: string
  value: number
  from: TorqueUnit
  to: TorqueUnit
  exact: [bigint, bigint]
}

/** Computed with exact fractions; the force factors were cross-checked with two unit libraries to 1e-15. */
export const CONVERSIONS: Conversion[] = [
  { id: 'UC-01', value: 100, from: 'lbf·ft', to: 'N·m', exact: [3389544870828501n, 25000000000000n] },
  { id: 'UC-02', value: 50, from: 'N·m', to: 'lbf·ft', exact: [125000000000000000n, 3389544870828501n] },
  { id: 'UC-04', value: 12.5, from: 'N·m', to: 'lbf·in', exact: [125000000000000000n, 1129848290276167n] },
  { id: 'UC-05', value: 7.5, from: 'kgf·m', to: 'N·m', exact: [588399n, 8000n] },
  { id: 'UC-06', value: 85, from: 'N·m', to: 'kgf·m', exact: [1700000n, 196133n] },
  { id: 'UC-08', value: 22, from: 'N·m', to: 'kgf·cm', exact: [44000000n, 196133n] },
  { id: 'UC-09', value: 40, from: 'ozf·in', to: 'N·m', exact: [1129848290276167n, 4000000000000000n] },
  { id: 'UC-11', value: 180, from: 'dN·m', to: 'N·m', exact: [18n, 1n] },
  { id: 'UC-12', value: 35, from: 'lbf·ft', to: 'lbf·in', exact: [420n, 1n] },
  { id: 'UC-13', value: 900, from: 'lbf·in', to: 'lbf·ft', exact: [75n, 1n] },
  { id: 'UC-15', value: 65, from: 'lbf·ft', to: 'kgf·m', exact: [224664300861n, 25000000000n] },
  { id: 'UC-17', value: 16, from: 'ozf·in', to: 'lbf·in', exact: [1n, 1n] },
  { id: 'UC-18', value: 47, from: 'N·m', to: 'dN·m', exact: [470n, 1n] },
  { id: 'UC-20', value: 2.5, from: 'kN·m', to: 'lbf·ft', exact: [6250000000000000000n, 3389544870828501n] },
]

export interface PublishedPair {
  id: string
  value: number
  from: TorqueUnit
  to: TorqueUnit
  /** As a service manual prints the same torque in the other unit, and the step it was rounded to. */
  printed: number
  step: number
}

/** Pairs as service manuals print them (memory: which ones was not kept), rounded there to the step given. */
export const PUBLISHED_PAIRS: PublishedPair[] = [
  { id: 'UP-01', value: 35, from: 'lbf·ft', to: 'N·m', printed: 47, step: 1 },
  { id: 'UP-02', value: 90, from: 'lbf·ft', to: 'N·m', printed: 122, step: 1 },
  { id: 'UP-04', value: 45, from: 'lbf·ft', to: 'N·m', printed: 61, step: 1 },
  { id: 'UP-05', value: 65, from: 'lbf·ft', to: 'N·m', printed: 88, step: 1 },
  { id: 'UP-07', value: 40, from: 'N·m', to: 'kgf·m', printed: 4.1, step: 0.1 },
  { id: 'UP-09', value: 60, from: 'N·m', to: 'kgf·m', printed: 6.1, step: 0.1 },
  { id: 'UP-10', value: 250, from: 'lbf·in', to: 'N·m', printed: 28, step: 1 },
]
