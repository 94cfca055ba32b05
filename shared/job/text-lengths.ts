/** How long the words people give may be, in characters: as the schema takes them, and so as a form lets them be typed. */
export const TEXT_LENGTHS = {
  /** Why: a deferral, a waiver, a strike, a promise; what a hold is for, and how it was cleared. */
  reason: 500,
  note: 4000,
  /** A note for whoever goes on, a complaint, a finding. */
  story: 2000,
} as const
