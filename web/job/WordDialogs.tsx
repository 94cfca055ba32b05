/** A supervisor's word with its reason: what is accepted as it is, a warranty case opened, and what was found in it. */
import { TEXT_LENGTHS } from '../../shared/job/text-lengths'
import type { DialogProps as PropsOf } from '../ui/dialogs'
import type { JobDialog } from './dialogs'
import { ReasonDialog } from './ReasonDialog'
import { waivedWords } from './record/waivers'
import { useJob } from './scope'

type DialogProps<K extends JobDialog['dialog']> = PropsOf<JobDialog, K>

export function Waive(props: DialogProps<'waive'>) {
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

export function OpenWarranty(props: DialogProps<'open_warranty'>) {
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

export function CloseWarranty(props: DialogProps<'close_warranty'>) {
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
