/** The dialogs in which words about a job are given and what is kept of it is looked at: one at a time, the same on every page. */
import { lazy, type ParentProps } from 'solid-js'
import { createDialogs } from '../ui/dialogs'
import { LeaveOut, TakeBack } from './deferrals/DeferralDialogs'
import { type JobDialog, JobDialogsContext } from './dialogs'
import { ChangeHold, ClearHold, RaiseHold } from './holds/HoldDialogs'
import { AddNote } from './notes/Notes'
import { LargePhoto } from './photos/Photos'
import { CloseWarranty, OpenWarranty, Waive } from './WordDialogs'
import './dialogs.css'
import './kept.css'

export function JobDialogs(props: ParentProps) {
  const { open, Outlet } = createDialogs<JobDialog>({
    raise_hold: RaiseHold,
    change_hold: ChangeHold,
    clear_hold: ClearHold,
    leave_out: LeaveOut,
    take_back: TakeBack,
    add_note: AddNote,
    photo: LargePhoto,
    look: lazy(() => import('./step/LookAndSign')),
    waive: Waive,
    release: lazy(() => import('./release/ReleaseDialog')),
    open_warranty: OpenWarranty,
    close_warranty: CloseWarranty,
  })
  return (
    <JobDialogsContext.Provider value={open}>
      {props.children}
      <Outlet />
    </JobDialogsContext.Provider>
  )
}
