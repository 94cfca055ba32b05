/** Old shapes of the shop's events, lifted when read; see `../job/upcast.ts`. */
import { asStored, type Lift, liftPlan } from '../job/upcast'
import type { ShopEvent } from './types'

const LIFTS: Record<ShopEvent['type'], Lift> = {
  ShopOpened: asStored,
  PersonAdded: asStored,
  PersonChanged: asStored,
  WrenchAdded: asStored,
  WrenchChanged: asStored,
  TolerancesSet: asStored,
  SelfRecheckSet: asStored,
  PlanAdded: liftPlan,
  PinSet: asStored,
  PersonLeft: asStored,
}

export function liftShopEvent(stored: { type: string }): ShopEvent | undefined {
  if (!Object.hasOwn(LIFTS, stored.type)) return undefined
  return LIFTS[stored.type as ShopEvent['type']]({ ...stored }) as unknown as ShopEvent
}
