/** Which dialogs there are about a job, and the way to open one; drawn by `JobDialogs`. */
import { createContext, useContext } from 'solid-js'
import type { Waived } from '../../shared/job/types'
import type { ReleaseKind } from '../../shared/plan/kinds'

export type JobDialog =
  | { dialog: 'raise_hold'; stepIds: readonly string[]; compact?: boolean }
  | { dialog: 'change_hold'; holdId: string }
  | { dialog: 'clear_hold'; holdId: string }
  | { dialog: 'leave_out'; stepId?: string; fastener?: { joint: string; position: number } }
  | { dialog: 'take_back'; deferralId: string }
  | { dialog: 'add_note'; stepId?: string }
  | { dialog: 'photo'; photoId: string }
  | { dialog: 'look'; stepId: string; setId: string }
  | { dialog: 'waive'; what: readonly Waived[] }
  | { dialog: 'release'; kind: ReleaseKind }
  | { dialog: 'open_warranty'; number: string }
  | { dialog: 'close_warranty'; complaint: string }

export const JobDialogsContext = createContext<(dialog: JobDialog) => void>()

/** Opens one of them. */
export function useJobDialogs(): (dialog: JobDialog) => void {
  const open = useContext(JobDialogsContext)
  if (!open) throw new Error('useJobDialogs is for parts inside JobDialogs')
  return open
}
