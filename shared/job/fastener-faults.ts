/** What can stand against the fastener in a place, or against its hole: what is so, and what to do about it. */
export const FASTENER_FAULTS = {
  not_declared: { what: 'nobody has entered whether it is new', remedy: 'Enter what is fitted' },
  temporary: { what: 'it is only temporary', remedy: 'Fit the right one' },
  hand_tight: { what: 'it is only hand-tight', remedy: 'Tighten and record it' },
  removed: { what: 'it was removed', remedy: 'Fit one' },
  fitted_twice: { what: 'it is one-use and was fitted again', remedy: 'Fit a new one' },
  cycles_spent: { what: 'it has been tightened as often as allowed', remedy: 'Fit a new one' },
  bottoms_out: {
    what: 'it reaches the bottom of its hole before it clamps',
    remedy: 'Fit one of the right length and enter it',
  },
  hole_impossible: {
    what: 'the entries for its hole contradict each other',
    remedy: 'Measure the hole again and enter it',
  },
  too_short: { what: 'too little of its thread holds', remedy: 'Fit one of the right length and enter it' },
  too_long: {
    what: 'it stands out by more than its diameter',
    remedy: 'Fit one of the right length and enter it',
  },
  hole_stripped: { what: 'the thread of its hole is stripped', remedy: 'Have it renewed and enter how' },
} as const satisfies Record<string, { what: string; remedy: string }>

export type FastenerFault = keyof typeof FASTENER_FAULTS

/** `it is only hand-tight. Tighten and record it`, as the end of a sentence without its full stop. */
export const faultAndRemedy = (fault: FastenerFault): string =>
  `${FASTENER_FAULTS[fault].what}. ${FASTENER_FAULTS[fault].remedy}`
