/** The first look as a page of its own, reached from the demonstration's banner. */
import { usePageTitle } from '../../frame/title'
import { FirstLook } from './FirstLook'

export default function FirstLookPage() {
  usePageTitle(() => 'First look')
  return (
    <div class="page first-look stack airy">
      <h1>First look</h1>
      <p>
        One log, and a screen for everybody who works from it. Touch a person to be signed in as them without
        a PIN, in this demonstration only.
      </p>
      <FirstLook />
    </div>
  )
}
