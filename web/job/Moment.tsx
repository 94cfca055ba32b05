/** When something was done: short on a screen; with its year on paper. */
import { format } from '../format'
import { useJobView } from './scope'

export function Moment(props: { at: number }) {
  const view = useJobView()
  return (
    <time dateTime={new Date(props.at).toISOString()}>
      <span class="screen-only">{view.words.moment(props.at)}</span>
      <span class="paper-only">{format.dateAndTime(props.at)}</span>
    </time>
  )
}
