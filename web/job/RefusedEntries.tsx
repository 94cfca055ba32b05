/** What the server refused of this device's entries for this job. */
import { RefusedList } from '../ui/RefusedList'
import { useJob } from './scope'

export function RefusedEntries() {
  const scope = useJob()
  return <RefusedList entries={scope.refused()} onDismiss={scope.dismiss} />
}
