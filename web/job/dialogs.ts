/** Which dialogs there are for holds, deferrals, notes and photos, and the way to open one; drawn by `JobDialogs`. */
import { createContext, useContext } from 'solid-js'

export type JobDialog =
  | { dialog: 'raise_hold'; stepIds: readonly string[]; compact?: boolean }
  | { dialog: 'change_hold'; holdId: string }
  | { dialog: 'clear_hold'; holdId: string }
  | { dialog: 'leave_out'; stepId?: string; fastener?: { joint: string; position: number } }
  | { dialog: 'take_back'; deferralId: string }
  | { dialog: 'add_note'; stepId?: string }
  | { dialog: 'photo'; photoId: string }

export const JobDialogsContext = createContext<(dialog: JobDialog) => void>()

/** Opens one of them. */
export function useJobDialogs(): (dialog: JobDialog) => void {
  const open = useContext(JobDialogsContext)
  if (!open) throw new Error('useJobDialogs is for parts inside JobDialogs')
  return open
}
