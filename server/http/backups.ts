/** What a supervisor is told of the shop's backups. */
import { Hono } from 'hono'
import type { BackupsTold } from '../../shared/protocol'
import { leads, SOMEBODY_WHO_LEADS } from '../../shared/shop/entitlement'
import { signedIn } from './guard'
import { type Env, problem, type Rooms } from './parts'

export function backupRoutes({ box, desk, now }: Rooms) {
  return new Hono<Env>().get('/backups', signedIn, async (c) => {
    const me = (await desk.shop()).people[c.var.signIn?.personId ?? '']
    if (!me || !leads(me))
      return problem(
        c,
        403,
        'role_needed',
        `Where the backups lie is for ${SOMEBODY_WHO_LEADS} to know. Ask one of them.`,
      )
    const { backups } = box
    const { last, failing } = backups.state()
    const hourly = backups.schedule()
    const { diskLeftBytes, problems } = await box.health()
    const told: BackupsTold = {
      ...(hourly
        ? {
            hourly: {
              into: hourly.into,
              sameDisk: backups.onSameDisk(),
              secrets: hourly.passphrase !== undefined,
            },
          }
        : {}),
      ...(last
        ? {
            last: {
              folder: last.folder,
              madeAt: last.madeAt,
              secrets: last.secrets,
              damagedPhotos: last.damagedPhotos,
            },
          }
        : {}),
      ...(failing ? { failing } : {}),
      diskLeftBytes,
      problems,
      now: now(),
    }
    return c.json(told)
  })
}
