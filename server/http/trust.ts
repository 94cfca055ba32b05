/** How a tablet comes to trust the shop's own certificate: a page without scripts, and the certificate itself. */
import { Hono } from 'hono'
import { html } from 'hono/html'
import { format } from '../format'
import type { Authority } from '../tls'
import type { Ctx, Env, Rooms, Trusted } from './parts'
import { wordsPage } from './words-page'

const FILE = 'paintmark-shop.crt'
const NEXT_FILE = 'paintmark-shop-next.crt'

export function trustRoutes({ web }: Rooms) {
  const trusted = () => web.trusted?.()
  const give = (c: Ctx, file: string, given: Authority | undefined) => {
    if (!given) return c.notFound()
    c.header('Content-Type', 'application/x-x509-ca-cert')
    c.header('Content-Disposition', `attachment; filename="${file}"`)
    return c.body(given.authority)
  }
  return new Hono<Env>()
    .get('/trust', (c) => {
      const now = trusted()
      return c.html(now ? explained(now) : notNeeded)
    })
    .get(`/trust/${FILE}`, (c) => give(c, FILE, trusted()))
    .get(`/trust/${NEXT_FILE}`, (c) => give(c, NEXT_FILE, trusted()?.next))
}

const explained = ({ next }: Trusted) =>
  wordsPage(
    'Let this tablet trust the shop',
    html`<p>
        The shop’s server made its own certificate. A tablet that trusts it shows no warning, and the pages it has opened
        once open there again without signal. It stands for this shop’s machine and network alone, for no address outside.
      </p>
      <ol>
        <li><a href="/trust/${FILE}">Download the shop’s certificate</a>.</li>
        <li>
          Open it in the tablet’s settings, under security or profiles, and install it as an authority (a CA
          certificate). On some tablets a second switch, “trust for websites”, has to be turned on after that.
        </li>
        <li>Close the browser, open it again, and go to this shop’s address.</li>
      </ol>
      <p>
        Compare before installing: the server printed the certificate’s fingerprint when it started, and the tablet
        shows it in the certificate’s details. Install it only if they are the same. Remove it when the tablet leaves
        the shop.
      </p>
      ${next ? renewed(next) : ''}`,
  )

const renewed = (next: NonNullable<Trusted['next']>) =>
  html`<h2>The next certificate</h2>
    <p>
      The certificate is renewed on ${format.date(next.from)}. Until then let every tablet trust
      <a href="/trust/${NEXT_FILE}">the next one</a> too, in the same way; one that does not shows a warning from that day on.
    </p>
    <p>Its fingerprint: <code>${next.fingerprint}</code></p>`

const notNeeded = wordsPage(
  'Nothing to trust here',
  html`<p>This server uses no certificate of its own: it is open to this machine alone, or a proxy in front speaks TLS.</p>`,
)
