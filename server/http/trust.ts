/** How a tablet comes to trust the shop's own certificate: a page without scripts, and the certificate itself. */
import { Hono } from 'hono'
import { html } from 'hono/html'
import type { Env } from './parts'
import { wordsPage } from './words-page'

export function trustRoutes(certificate: string | undefined) {
  return new Hono<Env>()
    .get('/trust', (c) => c.html(certificate ? explained : notNeeded))
    .get('/trust/paintmark-shop.crt', (c) => {
      if (!certificate) return c.notFound()
      c.header('Content-Type', 'application/x-x509-ca-cert')
      c.header('Content-Disposition', 'attachment; filename="paintmark-shop.crt"')
      return c.body(certificate)
    })
}

const explained = wordsPage(
  'Let this tablet trust the shop',
  html`<p>
      The shop’s server made its own certificate when it was first started. A tablet that trusts it shows no warning,
      and the pages it has opened once open there again without signal.
    </p>
    <ol>
      <li><a href="/trust/paintmark-shop.crt">Download the shop’s certificate</a>.</li>
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
    </p>`,
)

const notNeeded = wordsPage(
  'Nothing to trust here',
  html`<p>This server uses no certificate of its own: it is open to this machine alone, or a proxy in front speaks TLS.</p>`,
)
