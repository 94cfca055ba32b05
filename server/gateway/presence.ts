/** Who has a job's pages open. Never stored: it says who is here, not what was done. */
import type { Here, JobPage } from '../../shared/protocol'

interface PagePresence extends Here {
  jobId: string
}

export function makePresence(onChange: (jobId: string, here: Here[]) => void) {
  const bySocket = new Map<string, PagePresence>()

  function here(jobId: string): Here[] {
    const distinct = new Map<string, Here>()
    for (const at of bySocket.values())
      if (at.jobId === jobId)
        distinct.set(`${at.person}\n${at.place}`, { person: at.person, place: at.place })
    return [...distinct.values()]
  }

  function leave(socketId: string) {
    const before = bySocket.get(socketId)
    if (!bySocket.delete(socketId) || !before) return
    onChange(before.jobId, here(before.jobId))
  }

  return {
    here,
    leave,
    enter(socketId: string, person: string, jobId: string, place: JobPage) {
      const before = bySocket.get(socketId)
      if (before?.jobId === jobId && before.place === place && before.person === person) return
      bySocket.set(socketId, { person, jobId, place })
      if (before && before.jobId !== jobId) onChange(before.jobId, here(before.jobId))
      onChange(jobId, here(jobId))
    },
    /** Another person took over the device. */
    rename(socketId: string, person: string) {
      const before = bySocket.get(socketId)
      if (!before || before.person === person) return
      bySocket.set(socketId, { ...before, person })
      onChange(before.jobId, here(before.jobId))
    },
  }
}
