/** The first page of the day: touch your name, press your PIN. */
import { useNavigate, useSearchParams } from '@solidjs/router'
import { usePageTitle } from '../../frame/title'
import { PeoplePin } from './PeoplePin'

export default function SignIn() {
  const navigate = useNavigate()
  const [search] = useSearchParams()
  usePageTitle(() => 'Sign in')
  /** Only back into these pages: an address from elsewhere is not followed. */
  const next = () => {
    const to = String(search.to ?? '/')
    return /^\/(?!\/)/.test(to) ? to : '/'
  }
  return (
    <div class="page sign-in">
      <h1>Who is here?</h1>
      <PeoplePin onDone={() => navigate(next(), { replace: true })} />
    </div>
  )
}
