/** Who works here, and who did. */
import { lookUp } from '../look-up'
import type { Person, Shop } from './types'

export const hasLeft = ({ left }: Pick<Shop, 'left'>, personId: string): boolean =>
  left !== undefined && lookUp(left, personId) !== undefined

export const presentIn = (shop: Pick<Shop, 'people' | 'left'>): Person[] =>
  Object.values(shop.people).filter(({ id }) => !hasLeft(shop, id))
