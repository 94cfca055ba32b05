/** The one reason, two lines of it at most: what does not fit across the room is read on the board. */
import { type Reason, reasonSentence, standsAgainst } from '../../../shared/job/reason'
import { useSession } from '../../live/live'

export function ReadableReason(props: { reason: Reason }) {
  const session = useSession()
  const words = () => reasonSentence(props.reason, session.words)
  return (
    <p class="wall-reason" classList={{ against: standsAgainst(props.reason.code) }} title={words()}>
      {words()}
    </p>
  )
}
