/** The dialogs over the audit, for its lists to open: one at a time, so that no list carries its own. */
import { createContext, lazy, type ParentProps, useContext } from 'solid-js'
import { TEXT_LENGTHS } from '../../../shared/job/text-lengths'
import type { Waived } from '../../../shared/job/types'
import type { ReleaseKind } from '../../../shared/plan/kinds'
import { ReasonDialog } from '../../job/ReasonDialog'
import { waivedWords } from '../../job/record/waivers'
import { useJob } from '../../job/scope'
import { createDialogs } from '../../ui/dialogs'
import { ReleaseDialog } from './ReleaseDialog'

const LookAndSign = lazy(() => import('../../job/step/LookAndSign'))

type AuditDialog =
  | { dialog: 'look'; stepId: string; setId: string }
  | { dialog: 'waive'; what: readonly Waived[] }
  | { dialog: 'release'; kind: ReleaseKind }
  | { dialog: 'open_warranty'; number: string }
  | { dialog: 'close_warranty'; complaint: string }

type DialogProps<K extends AuditDialog['dialog']> = Omit<Extract<AuditDialog, { dialog: K }>, 'dialog'> & {
  onClose(): void
}

const AuditDialogsContext = createContext<(dialog: AuditDialog) => void>()

/** Opens one of them. */
export function useAuditDialogs(): (dialog: AuditDialog) => void {
  const open = useContext(AuditDialogsContext)
  if (!open) throw new Error('useAuditDialogs is for parts inside AuditDialogs')
  return open
}

export function AuditDialogs(props: ParentProps) {
  const { open, Outlet } = createDialogs<AuditDialog>({
    look: Look,
    waive: Waive,
    release: ReleaseDialog,
    open_warranty: OpenWarranty,
    close_warranty: CloseWarranty,
  })
  return (
    <AuditDialogsContext.Provider value={open}>
      {props.children}
      <Outlet />
    </AuditDialogsContext.Provider>
  )
}

function Look(props: DialogProps<'look'>) {
  const scope = useJob()
  const open = useAuditDialogs()
  const waive = () =>
    open({ dialog: 'waive', what: [{ kind: 'second', stepId: props.stepId, setId: props.setId }] })
  return <LookAndSign {...props} onWaive={scope.leads() ? waive : undefined} />
}

function Waive(props: DialogProps<'waive'>) {
  const scope = useJob()
  return (
    <ReasonDialog
      title="Accept with a reason"
      about={props.what.map((what) => waivedWords(scope.planned(), what))}
      label="Why is it acceptable?"
      hint="It stands in the record beside what it accepts: accepted with a reason."
      submitLabel="Accept: I answer for it"
      commands={(reason) => props.what.map((what) => ({ type: 'Waive', what, reason }))}
      onClose={props.onClose}
    />
  )
}

function OpenWarranty(props: DialogProps<'open_warranty'>) {
  return (
    <ReasonDialog
      title="Open warranty case"
      about={[
        `Record ${props.number} stays as it was printed. The job goes on, and ends in the next edition.`,
      ]}
      label="What does the owner say?"
      maxLength={TEXT_LENGTHS.story}
      submitLabel="Open warranty case"
      commands={(complaint) => [{ type: 'OpenWarranty', complaint }]}
      onClose={props.onClose}
    />
  )
}

function CloseWarranty(props: DialogProps<'close_warranty'>) {
  return (
    <ReasonDialog
      title="Record finding"
      about={[
        `“${props.complaint}”`,
        'The finding stands in the next edition of the record. Without it a step signed since answers the case.',
      ]}
      label="What was found? If nothing: no fault found, because …"
      maxLength={TEXT_LENGTHS.story}
      submitLabel="Record finding"
      commands={(finding) => [{ type: 'CloseWarranty', finding }]}
      onClose={props.onClose}
    />
  )
}
