/** The first moment of every story: 2030-01-07, 08:00 UTC; and how long things take, ms. */
export const START = Date.UTC(2030, 0, 7, 8)
export const MINUTE = 60_000
export const HOUR = 60 * MINUTE
export const DAY = 24 * HOUR
