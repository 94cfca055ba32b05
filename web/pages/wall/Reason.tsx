/** The one reason, two lines of it at most: what does not fit across the room is read on the board. */
import { type Reason, reasonSentence } from '../../../shared/job/reason'
import { useSession } from '../../live/live'

const AGAINST = new Set<Reason['code']>(['second_late', 'flagged', 'stuck'])

export function ReadableReason(props: { reason: Reason }) {
  const session = useSession()
  const words = () => reasonSentence(props.reason, session.words)
  return (
    <p class="wall-reason" classList={{ against: AGAINST.has(props.reason.code) }} title={words()}>
      {words()}
    </p>
  )
}
