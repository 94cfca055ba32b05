/** For a program that a running server can do the work of: asks it, or holds the folder itself where none runs. */
import { Refused } from '../settings'
import { type Held, heldSentence, holderNow, type Program, takeFolder } from './hold'
import { askHolder, NobodyThere, type Question } from './talk'

const INVENTED = 'Its shop is invented and made anew each time; nothing of it is kept.'
const WAIT = 'It does not answer yet. Wait until it does, then try again.'

export async function askOrTake(
  folder: string,
  program: Program,
  question: Question,
): Promise<{ answer: Record<string, unknown> } | { held: Held }> {
  const holder = holderNow(folder)
  if (!holder) return { held: takeFolder(folder, program, WAIT) }
  if (!holder.socket)
    throw new Refused(heldSentence(folder, holder, holder.program === 'demonstration' ? INVENTED : WAIT))
  try {
    return { answer: await askHolder(holder.socket, question) }
  } catch (error) {
    if (!(error instanceof NobodyThere)) throw error
    throw new Refused(heldSentence(folder, holder, WAIT))
  }
}
