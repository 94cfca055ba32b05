/** What a device counted as entered on it, held against what came. */
import { Hono } from 'hono'
import type { EntriesMissing } from '../../shared/protocol'
import { entriesCountedSchema } from '../../shared/schema'
import { signedIn } from './guard'
import { body, type Env, type Rooms } from './parts'

export const entryRoutes = ({ desk, log }: Rooms) =>
  new Hono<Env>().post('/entries/missing', signedIn, async (c) => {
    const input = await body(c, entriesCountedSchema)
    if ('answer' in input) return input.answer
    const { deviceId = '' } = c.var
    const missing: EntriesMissing[] = await desk.missingEntries(deviceId, input.value)
    if (missing.length > 0) log.warn({ deviceId, missing }, 'Entries made on a device never arrived.')
    return c.json({ missing })
  })
