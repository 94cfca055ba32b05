/** Who has a job's pages open. Never stored: it says who is here, not what was done. */
import type { Here, Place } from '../../shared/protocol'

interface At extends Here {
  jobId: string
}

export function makePresence(tell: (jobId: string, here: Here[]) => void) {
  const bySocket = new Map<string, At>()

  function here(jobId: string): Here[] {
    const seen = new Map<string, Here>()
    for (const at of bySocket.values())
      if (at.jobId === jobId) seen.set(`${at.person}\n${at.place}`, { person: at.person, place: at.place })
    return [...seen.values()]
  }

  function leave(socketId: string) {
    const before = bySocket.get(socketId)
    if (!bySocket.delete(socketId) || !before) return
    tell(before.jobId, here(before.jobId))
  }

  return {
    here,
    leave,
    be(socketId: string, person: string, jobId: string, place: Place) {
      const before = bySocket.get(socketId)
      if (before?.jobId === jobId && before.place === place && before.person === person) return
      bySocket.set(socketId, { person, jobId, place })
      if (before && before.jobId !== jobId) tell(before.jobId, here(before.jobId))
      tell(jobId, here(jobId))
    },
    /** Another person took over the device. */
    rename(socketId: string, person: string) {
      const before = bySocket.get(socketId)
      if (!before || before.person === person) return
      bySocket.set(socketId, { ...before, person })
      tell(before.jobId, here(before.jobId))
    },
  }
}
