/** Every figure, in the order of the table. */
import { boards50, boards200 } from './boards'
import { commands } from './commands'
import type { Figure } from './figure'
import { firstLoad } from './first-load'
import { growth } from './growth'
import { history } from './history'
import { holes } from './holes'
import { manyJobs } from './many-jobs'
import { memory } from './memory'
import { openEngines } from './open-engines'
import { pages } from './pages'
import { pixels } from './pixels'
import { sheets } from './sheets'
import { catchUp, jobLoad } from './wire'

export const figures: Figure[] = [
  commands,
  manyJobs,
  openEngines,
  growth,
  boards50,
  boards200,
  firstLoad,
  pixels,
  pages,
  catchUp,
  jobLoad,
  holes,
  memory,
  sheets,
  history,
]
