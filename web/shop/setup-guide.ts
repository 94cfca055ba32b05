/** What a new shop needs before its first engine, and how far it is. Nothing here blocks anything. */
import { presentIn } from '../../shared/shop/left'
import type { Shop } from '../../shared/shop/types'
import { counted } from '../../shared/words'

export interface GuideItem {
  id: 'people' | 'wrenches' | 'plan' | 'job'
  title: string
  done: boolean
  /** How it stands, in a sentence. */
  words: string
}

export function guideOf(shop: Shop, jobs: number): GuideItem[] {
  const people = presentIn(shop).length
  const wrenches = Object.keys(shop.wrenches).length
  const plans = Object.values(shop.plans).flatMap((editions) => Object.values(editions))
  const invented = plans.length > 0 && plans.every((plan) => plan.invented)
  return [
    {
      id: 'people',
      title: 'The people',
      done: people > 1,
      words:
        people > 1
          ? `Done: ${people} people are entered.`
          : 'Not done: only you are entered. A class A joint takes two people, so enter at least one more.',
    },
    {
      id: 'wrenches',
      title: 'The wrenches',
      done: wrenches > 0,
      words:
        wrenches > 0
          ? `Done: ${counted(wrenches, 'wrench is', 'wrenches are')} in the crib.`
          : 'Not done: the crib is empty. Every reading names its wrench; one that is not in the crib is flagged.',
    },
    {
      id: 'plan',
      title: 'A build plan',
      done: plans.length > 0,
      words:
        plans.length === 0
          ? 'Not done: the library is empty. Load a plan file of your own, or look around with an invented example.'
          : `Done: ${counted(plans.length, 'plan is', 'plans are')} in the library${invented ? ', with invented values only' : ''}.`,
    },
    {
      id: 'job',
      title: 'The first job',
      done: jobs > 0,
      words:
        jobs > 0
          ? `Done: ${counted(jobs, 'engine is', 'engines are')} on the board.`
          : 'Not done: no engine is on the board. A job can be opened at any time, also without a plan.',
    },
  ]
}

export const doneCount = (items: readonly GuideItem[]): string =>
  `${items.filter(({ done }) => done).length} of ${items.length} done`
