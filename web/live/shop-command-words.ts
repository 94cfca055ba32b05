/** What somebody entered for the shop, in words: shown beside the sentence that refused it. */
import type { ShopCommand } from '../../shared/shop/types'

type EntryWords = {
  [T in ShopCommand['type']]: (command: Extract<ShopCommand, { type: T }>) => string
}

const WORDS: EntryWords = {
  OpenShop: ({ name }) => `the shop ${name}`,
  AddPerson: ({ person }) => `a new person, ${person.name}`,
  ChangePerson: ({ person }) => `a change to ${person.name}`,
  LeaveShop: () => 'that somebody leaves the shop',
  AddWrench: ({ wrench }) => `a new wrench, ${wrench.id}`,
  ChangeWrench: ({ wrench }) => `a change to the wrench ${wrench.id}`,
  SetTolerances: () => 'new tolerances',
  SetSelfRecheck: () => 'the rule for a second look at one’s own work',
  AddPlan: ({ plan }) => `the plan ${plan.title}, edition ${plan.edition}`,
}

export const shopCommandWords = (command: ShopCommand): string =>
  (WORDS[command.type] as (command: ShopCommand) => string)(command)
