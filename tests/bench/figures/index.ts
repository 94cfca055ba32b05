/** Every figure, in the order of the table. */
import { boards50, boards200 } from './boards'
import { commands } from './commands'
import type { Figure } from './figure'
import { firstLoad } from './first-load'
import { holes } from './holes'
import { manyJobs } from './many-jobs'
import { memory } from './memory'
import { pixels } from './pixels'
import { sheets } from './sheets'
import { start } from './start'
import { catchUp, jobLoad } from './wire'

export const figures: Figure[] = [
  commands,
  manyJobs,
  boards50,
  boards200,
  firstLoad,
  pixels,
  catchUp,
  jobLoad,
  holes,
  memory,
  sheets,
  start,
]
