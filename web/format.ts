/** Dates, times and numbers as this shop writes them, on the clock of this device. */
import { DEFAULT_FORMAT, makeFormat } from '../shared/format'

const { timeZone } = Intl.DateTimeFormat().resolvedOptions()

export const format = makeFormat({ ...DEFAULT_FORMAT, timeZone })
