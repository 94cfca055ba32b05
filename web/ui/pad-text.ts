import { format } from '../format'

/** What was pressed on a pad, which holds it with a point, as the shop writes it. */
export const padText = (text: string): string => text.replace('.', format.shop.decimalMark)
