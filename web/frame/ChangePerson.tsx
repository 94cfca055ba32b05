/** Another person takes the tablet: nothing they find was theirs, nothing entered before becomes theirs. */
import { useNavigate } from '@solidjs/router'
import { createSignal, Show } from 'solid-js'
import { useSession } from '../live/live'
import { PeoplePin } from '../people/PeoplePin'
import { Button } from '../ui/Button'
import { Dialog } from '../ui/Dialog'
import { Sentence } from '../ui/Sentence'

export default function ChangePerson(props: { onClose(): void }) {
  const session = useSession()
  const navigate = useNavigate()
  const [problem, setProblem] = createSignal<string>()
  return (
    <Dialog open title="Who is using this tablet?" broad onClose={props.onClose}>
      <PeoplePin skip={session.person()?.id} onDone={props.onClose} />
      <Button
        variant="quiet"
        onClick={async () => {
          const why = await session.signOut()
          if (why) return setProblem(why)
          props.onClose()
          navigate('/sign-in')
        }}
      >
        Sign {session.person()?.name} out
      </Button>
      <Show when={problem()}>
        {(why) => (
          <Sentence against>
            {session.person()?.name} is still signed in. {why()}
          </Sentence>
        )}
      </Show>
    </Dialog>
  )
}
