/** The one sheet that is open over the audit. */
import { lazy, Show, Suspense } from 'solid-js'
import { TEXT_LENGTHS } from '../../../shared/job/text-lengths'
import { ReasonDialog } from '../../job/ReasonDialog'
import { waivedWords } from '../../job/record/waivers'
import { useJob } from '../../job/scope'
import { type Ask, useAsk } from './ask'
import { ReleaseDialog } from './ReleaseDialog'

const LookAndSign = lazy(() => import('../../job/step/LookAndSign'))

type Of<K extends Ask['do']> = Extract<Ask, { do: K }>

export function AuditDialogs(props: { ask: Ask; onClose(): void }) {
  const scope = useJob()
  const { ask } = useAsk()
  const of = <K extends Ask['do']>(kind: K): Of<K> | undefined =>
    props.ask.do === kind ? (props.ask as Of<K>) : undefined
  const waiveSecond = ({ stepId, setId }: Of<'look'>) =>
    ask({
      do: 'waive',
      title: 'Accept without a second signature',
      what: [{ kind: 'second', stepId, setId }],
    })
  return (
    <>
      <Show when={of('look')}>
        {(at) => (
          <Suspense>
            <LookAndSign
              stepId={at().stepId}
              setId={at().setId}
              onClose={props.onClose}
              onWaive={scope.leads() ? () => waiveSecond(at()) : undefined}
            />
          </Suspense>
        )}
      </Show>
      <Show when={of('waive')}>
        {(one) => (
          <ReasonDialog
            title={one().title}
            about={one().what.map((what) => waivedWords(scope.planned(), what))}
            label="Why is it acceptable?"
            hint="It stands in the record beside what it accepts: accepted with a reason."
            submitLabel="Accept it: I answer for it"
            commands={(reason) => one().what.map((what) => ({ type: 'Waive', what, reason }))}
            onClose={props.onClose}
          />
        )}
      </Show>
      <Show when={of('release')}>{(one) => <ReleaseDialog kind={one().kind} onClose={props.onClose} />}</Show>
      <Show when={of('warranty')}>
        {(one) => (
          <ReasonDialog
            title="Open a warranty case"
            about={[
              `Record ${one().number} stays as it was printed. The job goes on, and ends in the next edition.`,
            ]}
            label="What does the owner say?"
            maxLength={TEXT_LENGTHS.story}
            submitLabel="Open the case"
            commands={(complaint) => [{ type: 'OpenWarranty', complaint }]}
            onClose={props.onClose}
          />
        )}
      </Show>
      <Show when={of('finding')}>
        {(one) => (
          <ReasonDialog
            title="Answer the warranty case"
            about={[
              `“${one().complaint}”`,
              'The finding stands in the next edition of the record. Without it a step signed since answers the case.',
            ]}
            label="What was found? If nothing: no fault found, because …"
            maxLength={TEXT_LENGTHS.story}
            submitLabel="Record the finding"
            commands={(finding) => [{ type: 'CloseWarranty', finding }]}
            onClose={props.onClose}
          />
        )}
      </Show>
    </>
  )
}
