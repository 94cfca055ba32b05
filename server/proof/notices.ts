/** What people at the screens are told of damage: which engine, and what it means for them. What to do about it stands once, below. */
import type { DamageNotice } from '../../shared/protocol'
import type { Fault } from './report'
import { RESTORE } from './report'

export function noticeOf({ kind, sentence, jobId, number }: Fault): DamageNotice {
  const about = { ...(jobId === undefined ? {} : { jobId }), ...(number === undefined ? {} : { number }) }
  return { ...about, sentence: inWords() }

  function inWords(): string {
    switch (kind) {
      case 'chain':
        return number === undefined
          ? 'The shop’s own record is damaged: nothing can be entered until it is restored.'
          : `The record of ${number} is damaged: nothing more can be entered on it, and it must not be released. Write what you do on it on the paper job sheet.`
      case 'page':
        return `The shop’s database is damaged${number === undefined ? '' : ` where ${number} is kept`}.`
      case 'view':
        return `What stands here of ${number} may be false: it is not what its record says.`
      case 'photo':
        return `A photo${number === undefined ? '' : ` of ${number}`} is damaged or missing.`
      case 'answer':
        return 'Answers kept for the tablets are not the ones that were given.'
      case 'marks':
        return 'The marks that show whether the record is whole are damaged.'
      default:
        return sentence.replace(RESTORE, '').trim()
    }
  }
}

/** Each once, in the order of the faults. */
export function noticesOf(faults: readonly Fault[]): DamageNotice[] {
  const notices = new Map<string, DamageNotice>()
  for (const notice of faults.map(noticeOf)) notices.set(notice.sentence, notice)
  return [...notices.values()]
}
