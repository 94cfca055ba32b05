/** The first look as a page of its own, reached from the demonstration's banner. */
import { usePageTitle } from '../../frame/title'
import { FirstLook } from './FirstLook'

export default function FirstLookPage() {
  usePageTitle(() => 'First look')
  return (
    <div class="page first-look stack airy">
      <h1>First look</h1>
      <p>
        One log, and a screen for each who works by it. Touch a person to be them, without a PIN; that goes in
        this demonstration only.
      </p>
      <FirstLook />
    </div>
  )
}
