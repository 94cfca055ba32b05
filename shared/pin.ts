/** What a PIN may be. Credentials themselves never enter a stream, a command or a log. */
export const PIN_FORM = /^\d{4,12}$/
export const PIN_WORDS = '4 to 12 digits'
