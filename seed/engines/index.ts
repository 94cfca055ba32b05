/** The eight engines of the demo shop, in the order of their numbers. */
import { e101 } from './e-101'
import { e102 } from './e-102'
import { e103 } from './e-103'
import { e104 } from './e-104'
import { e105 } from './e-105'
import { e106 } from './e-106'
import { e107 } from './e-107'
import { e108 } from './e-108'

export const ENGINES = [e101, e102, e103, e104, e105, e106, e107, e108] as const
