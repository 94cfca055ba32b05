/** An address that leads nowhere. */
import { A } from '@solidjs/router'
import { usePageTitle } from '../../frame/title'

export default function Lost() {
  usePageTitle(() => 'No such page')
  return (
    <div class="page">
      <h1>No page has this address.</h1>
      <p>
        <A class="button" href="/">
          To the board
        </A>
      </p>
    </div>
  )
}
