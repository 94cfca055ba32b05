/** The board. */
export { Board as default } from './Board'
