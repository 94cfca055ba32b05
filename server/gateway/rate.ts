/** How many messages one socket may send: more than any bench needs, less than a loop gone wild [WI9]. */
export const PER_SECOND = 250
export const BURST = 500

/** Of a clock that only goes forward: one that is set back would keep the socket waiting for as long. */
export function makeBucket(now: number) {
  let left = BURST
  let at = now
  /** Whether one more may come now. */
  return (moment: number): boolean => {
    left = Math.min(BURST, left + ((moment - at) / 1000) * PER_SECOND)
    at = moment
    if (left < 1) return false
    left -= 1
    return true
  }
}
