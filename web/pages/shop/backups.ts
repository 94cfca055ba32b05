/** What a supervisor is told of the shop's backups, in sentences; those that ask for something to be done are `against`. */
import type { BackupsTold } from '../../../shared/protocol'
import { counted } from '../../../shared/words'
import { format } from '../../format'

export interface Told {
  text: string
  against: boolean
}

export function backupSentences(told: BackupsTold): Told[] {
  const { hourly, last, failing, now } = told
  const well = (text: string): Told => ({ text, against: false })
  const against = (text: string): Told => ({ text, against: true })
  const sentences = [
    hourly
      ? well(`A backup is made every hour in which something was entered, in ${hourly.into}.`)
      : against(
          'The server makes no backups by itself. Start it with BACKUP_DIR naming a folder for them, best on another disk.',
        ),
  ]
  if (failing)
    sentences.push(
      against(`No backup could be made since ${format.moment(failing.since, now)}. ${failing.sentence}`),
    )
  if (last) {
    sentences.push(
      well(`Last backup: ${format.moment(last.madeAt, now)}, in ${last.folder}.`),
      well(
        last.secrets
          ? 'PINs, keys and the tablets’ trust are in it, encrypted under the shop’s passphrase.'
          : 'It holds no PINs and no keys: after a restore every PIN has to be set again, and every tablet has to learn again to trust the shop. Start the server with BACKUP_PASSPHRASE to add them, encrypted.',
      ),
    )
    if (last.damagedPhotos > 0)
      sentences.push(
        against(
          `${counted(last.damagedPhotos, 'photo')} could not be copied: the bytes on the server are damaged. Run “npm run verify” there; it names them.`,
        ),
      )
  } else if (hourly && !failing)
    sentences.push(well('None has been made yet; the first is made within the hour.'))
  if (hourly?.sameDisk)
    sentences.push(
      against(
        'They lie on the same disk as the data: if that disk fails, both are lost. Choose a folder on another one.',
      ),
    )
  sentences.push(...told.problems.map(against), well(roomWords(told.diskLeftBytes)))
  return sentences
}

const GB = 1e9

/** To the tenth below ten. */
const roomWords = (bytes: number): string =>
  `The server’s disk has ${format.number(bytes < 10 * GB ? Math.floor((10 * bytes) / GB) / 10 : Math.floor(bytes / GB))} GB left.`
