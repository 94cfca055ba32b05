/** The room that knows who somebody is. Its promises stand in `people.ts`. */
export { makePeople, type People, SIGNED_OUT } from './people'
export { makePinKey } from './pin-key'
export { arePinsSet, forgetPins, pepperIn } from './pins'
export { doneUnder, type SignIn } from './sign-ins'
