/** What a running server answers to other programs of its machine (`server/holding/talk.ts`). */
import { isTooEasyPin, PIN_FORM, PIN_TOO_EASY, PIN_WORDS } from '../../shared/pin'
import { AT_THE_MACHINE } from '../../shared/shop/types'
import { takenWords } from '../backups/take'
import type { Log } from '../desk/types'
import type { Answers } from '../holding'
import type { OpenShop } from '../open-shop'
import { Refused } from '../settings'
import { personMeant } from './person'

export function answersOf(
  { access, box, desk }: OpenShop,
  log: Log,
  passphrase: string | undefined,
): Answers {
  return {
    state: async () => ({ ...(await box.health()), epoch: box.epoch(), coveredSeq: box.coveredSeq() }),
    async backup({ into, passphrase: given }) {
      const under = typeof given === 'string' ? given : passphrase
      const taken = await box.backups.take({
        into: text(into),
        kind: 'by_hand',
        ...(under === undefined ? {} : { passphrase: under }),
      })
      log.info({ folder: taken.folder, seq: taken.manifest.seq }, 'A backup was made by hand.')
      return { sentence: takenWords(taken) }
    },
    async person({ name }) {
      const { id, name: fullName } = personMeant(await desk.shop(), text(name))
      return { id, name: fullName }
    },
    async pin({ id, pin }) {
      const person = (await desk.shop()).people[text(id)]
      if (!person || !PIN_FORM.test(text(pin))) throw new Refused(`The PIN was not set: it is ${PIN_WORDS}.`)
      if (isTooEasyPin(text(pin))) throw new Refused(`The PIN was not set. ${PIN_TOO_EASY}`)
      const set = await access.setPin({ personId: person.id, pin: text(pin), by: AT_THE_MACHINE })
      if (!set.ok) throw new Refused(set.sentence)
      log.info(
        { personId: person.id },
        'A PIN was set at the server’s machine; its person was signed out everywhere.',
      )
      return {}
    },
  }
}

const text = (value: unknown): string => (typeof value === 'string' ? value : '')
