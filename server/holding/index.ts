/** Who writes to a data folder, and how other programs ask them. Come in here: the lock is in `hold.ts`, the questions in `talk.ts`. */
export {
  type Held,
  type Holder,
  heldSentence,
  holderNow,
  isOfHolding,
  type Program,
  refuseHeld,
  takeFolder,
} from './hold'
export { type Answers, askHolder, NobodyThere, type Question } from './talk'
