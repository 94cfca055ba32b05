/** Longer stories on the test plans, each right in every respect. */
import {
  type Act,
  answer,
  arrived,
  type But,
  bead,
  claim,
  closed,
  type Given,
  measure,
  photo,
  place,
  secondSign,
  settle,
  shows,
  sign,
  slacken,
  turn,
} from './acts'

export const headTorqued = (by = 'ana'): Given[] => [
  claim('head', { by }),
  [2, 1, 4, 3].map((n) => shows('JH', n, 30, { by })),
]
export const headTurned = (by = 'ana'): Given[] => [
  headTorqued(by),
  [2, 1, 4, 3].map((n) => turn('JH', n, 90, { by })),
]
export const headSigned = (by = 'ana'): Given[] => [headTurned(by), sign('head', { by })]
export const headProven = (by = 'ana', second = 'bo'): Given[] => [
  headSigned(by),
  secondSign('head', { by: second }),
]

export const capTorqued = (cap: 1 | 2, by = 'ana'): Given[] =>
  (cap === 1 ? [2, 1] : [4, 3]).map((n) => shows('JC', n, 50, { by }))
export const capSigned = (cap: 1 | 2): Given[] => [capTorqued(cap), sign('caps', { setId: `cap-${cap}` })]
export const capsMeasured = (): Given[] => [
  measure('cap 1', 0.05),
  measure('cap 2', 0.05),
  measure('crank', 0.2, { measurementId: 'float' }),
]
export const capsAnswered = (): Given[] => [answer('shells', { count: 4 }), answer('turns')]
/** Both caps signed, everything measured and answered: only the step's own word is to come. */
export const capsReady = (): Given[] => [
  claim('caps'),
  capSigned(1),
  capSigned(2),
  capsMeasured(),
  capsAnswered(),
]

/** Every word on the caps, from both, with the picture its gate asks for. */
export const capsProven = (): Given[] => [
  capsReady(),
  sign('caps'),
  ['cap-1', 'cap-2', 'step'].map((setId) => secondSign('caps', { setId })),
  photo('front', { stepId: 'caps', gateId: 'picture', place: 'front' }),
  arrived('front'),
]
/** Right in every respect: closed in its window; cures until an hour after `at` + 5. */
export const sumpDone = (at = 100): Given[] => [
  claim('sump', { by: 'cy', at }),
  bead('sump', { by: 'cy', at }),
  [1, 2].map((n) => shows('JS', n, 10, { by: 'cy', at: at + 2 })),
  closed('sump', { by: 'cy', at: at + 5 }),
  sign('sump', { by: 'cy', at: at + 6 }),
]
export const coverDone = (): Given[] => [
  claim('cover', { by: 'cy' }),
  [1, 2].map((n) => shows('JV', n, 10, { by: 'cy' })),
  sign('cover', { by: 'cy' }),
]
export const reseatDone = (): Given[] => [
  claim('reseat'),
  [1, 2].map((n) => shows('JR', n, 20, { at: 110 })),
  [1, 2].map((n) => slacken('JR', n, { pass: 2, at: 112 })),
  [1, 2].map((n) => shows('JR', n, 25, { pass: 4, at: 150 })),
  sign('reseat', { at: 152 }),
]
export const drainDone = (): Given[] => [settle('JN', 12), claim('drain'), shows('JN', 1, 12), sign('drain')]
export const proofBegun = (at = 200): Given[] => [
  claim('proof', { by: 'cy', at }),
  [1, 2].map((n) => shows('JX', n, 10, { by: 'cy', at })),
]
/** Everything the plan asks, to the last word. */
export const allDone = (): Given[] => [
  capsProven(),
  headProven(),
  coverDone(),
  sumpDone(),
  reseatDone(),
  drainDone(),
  proofBegun(),
  sign('proof', { by: 'cy', at: 205 }),
]

/** On the floor's plan: a joint read at one number, position by position. */
export const all = (
  jointId: string,
  positions: number[],
  value: number,
  but: But<'TakeReading'> = {},
): Act[] => positions.map((n) => shows(jointId, n, value, but))
export const rodsProven = (): Given[] => [
  claim('rods'),
  place('JO', [1, 2]),
  all('JO', [1, 2], 40),
  sign('rods'),
  secondSign('rods'),
]
export const pumpSigned = (positions = [1, 2, 3]): Given[] => [
  claim('pump'),
  all('JP', positions, 30),
  sign('pump'),
]
export const pumpProven = (positions?: number[]): Given[] => [pumpSigned(positions), secondSign('pump')]
export const housingSigned = (by = 'ana'): Given[] => [
  claim('housing', { by }),
  all('JB', [1, 2, 3, 4, 5, 6, 7, 8], 22, { by }),
  sign('housing', { by }),
]
export const housingProven = (): Given[] => [housingSigned(), secondSign('housing')]
export const twinTurned = (cap: 'left' | 'right'): Given[] => {
  const positions = cap === 'left' ? [1, 2] : [3, 4]
  return [all('JT', positions, 20), positions.map((n) => turn('JT', n, 60))]
}
export const twinDone = (): Given[] => [
  claim('twin'),
  twinTurned('left'),
  twinTurned('right'),
  sign('twin', { setId: 'left' }),
  sign('twin', { setId: 'right' }),
]
export const sealDone = (at = 100): Given[] => [
  claim('seal', { at }),
  bead('seal', { at }),
  all('JE', [1, 2], 9, { at: at + 5 }),
  closed('seal', { at: at + 7 }),
  sign('seal', { at: at + 8 }),
]
/** Everything up to the release to fitting, at minute 900; the bead cured at 827. */
export const buildDone = (): Given[] => [
  rodsProven(),
  pumpProven(),
  twinDone(),
  housingProven(),
  [claim('trial'), place('JY', [1, 2]), all('JY', [1, 2], 12), sign('trial')],
  [claim('shroud'), all('JS', [1, 2], 9), sign('shroud')],
  sealDone(),
  [claim('fill', { at: 830 }), sign('fill', { at: 831 })],
  [claim('closing'), answer('rags', { stepId: 'closing', count: 3 }), sign('closing'), secondSign('closing')],
]
export const liftDone = (): Given[] => [
  claim('lift'),
  shows('JL', 1, 15),
  sign('lift'),
  ['port', 'starboard'].map((place) => [
    photo(place, { stepId: 'lift', gateId: 'aboard', place }),
    arrived(place),
  ]),
]
