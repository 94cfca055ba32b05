/** Every figure, in the order of the table. */
import { boards50, boards200 } from './boards'
import { commands } from './commands'
import type { Figure } from './figure'

export const figures: Figure[] = [commands, boards50, boards200]
