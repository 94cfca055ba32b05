/** Another person takes the tablet: nothing they find was theirs, nothing entered before becomes theirs. */
import { useNavigate } from '@solidjs/router'
import { useSession } from '../live/live'
import { PeoplePin } from '../people/PeoplePin'
import { Button } from '../ui/Button'
import { Dialog } from '../ui/Dialog'

export default function ChangePerson(props: { onClose(): void }) {
  const session = useSession()
  const navigate = useNavigate()
  return (
    <Dialog open title="Who is using this tablet?" broad onClose={props.onClose}>
      <PeoplePin skip={session.person()?.id} onDone={props.onClose} />
      <Button
        variant="quiet"
        onClick={async () => {
          await session.signOut()
          props.onClose()
          navigate('/sign-in')
        }}
      >
        Sign {session.person()?.name} out
      </Button>
    </Dialog>
  )
}
