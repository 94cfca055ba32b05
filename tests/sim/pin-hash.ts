/** In place of the package `@node-rs/argon2`, which takes its time on purpose: PINs are not what is tried here. */
export const hash = async (pin: string): Promise<string> => `not hashed: ${pin}`
export const verify = async (stored: string, pin: string): Promise<boolean> => stored === `not hashed: ${pin}`
