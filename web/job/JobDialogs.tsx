/** The dialogs in which holds, deferrals, notes and photos are given and looked at: one at a time, the same on every page. */
import type { ParentProps } from 'solid-js'
import { createDialogs } from '../ui/dialogs'
import { LeaveOut, TakeBack } from './deferrals/DeferralDialogs'
import { type JobDialog, JobDialogsContext } from './dialogs'
import { ChangeHold, ClearHold, RaiseHold } from './holds/HoldDialogs'
import { AddNote } from './notes/Notes'
import { LargePhoto } from './photos/Photos'
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
  })
  return (
    <JobDialogsContext.Provider value={open}>
      {props.children}
      <Outlet />
    </JobDialogsContext.Provider>
  )
}
