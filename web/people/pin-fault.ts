import { isTooEasyPin, PIN_FORM, PIN_TOO_EASY, PIN_WORDS } from '../../shared/pin'

/** What is wrong with a PIN that was typed twice; nothing when it can be set. */
export function pinFault(pin: string, again: string): string | undefined {
  if (!PIN_FORM.test(pin)) return `A PIN is ${PIN_WORDS}. Choose one.`
  if (isTooEasyPin(pin)) return PIN_TOO_EASY
  return pin === again ? undefined : 'The two PINs differ. Enter the same one twice.'
}
