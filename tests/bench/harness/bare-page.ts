/**
 * The reference for pages: the same lines of text as a plain list, and nothing else. A line changes when the server says
 * so, over the browser's own event stream.
 */
import { createServer, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { Ending } from './ending'

export interface BarePage {
  origin: string
  /** Another text for one line, in turn. */
  tell(): void
}

export async function serveBarePage(lines: readonly string[], ending: Ending): Promise<BarePage> {
  const listening = new Set<ServerResponse>()
  let told = 0
  const server = createServer(({ url }, answer) => {
    if (url === '/events') {
      answer.writeHead(200, { 'content-type': 'text/event-stream' }).flushHeaders()
      listening.add(answer)
      answer.on('close', () => listening.delete(answer))
    } else if (url === '/') {
      answer.writeHead(200, { 'content-type': 'text/html; charset=utf-8' }).end(html(lines))
    } else answer.writeHead(404).end()
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  ending.add(() => {
    server.closeAllConnections()
    server.close()
  })
  return {
    origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    tell() {
      told += 1
      const change = JSON.stringify([told % lines.length, `${lines[told % lines.length]} (${told})`])
      for (const answer of listening) answer.write(`data: ${change}\n\n`)
    },
  }
}

const html = (lines: readonly string[]) => `<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Bare</title><link rel="icon" href="data:,">
<main><ul>${lines.map((line) => `<li>${escaped(line)}</li>`).join('\n')}</ul></main>
<script>
const rows = document.querySelectorAll('li')
new EventSource('/events').onmessage = ({ data }) => {
  const [at, text] = JSON.parse(data)
  rows[at].textContent = text
}
</script></html>`

const escaped = (text: string) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;')
