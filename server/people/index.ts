/** The room that knows who somebody is. Its promises stand in `people.ts`. */
export { makePeople, type People, SIGNED_OUT } from './people'
export { arePinsSet, forgetPins, pepperIn } from './pins'
export { doneUnder, type SignIn } from './sign-ins'
