import { planFile } from '../../../seed/shop'
import { repoFolder } from '../../../server/repo-folder'
import type { Plan } from '../../../shared/plan/types'

/** A plan file of the demonstration's shop, by its name: `orrath-q31`. */
export const demoPlan = (name: string): Plan => planFile(repoFolder(), name)
