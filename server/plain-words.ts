/** What is said to whoever does not speak as this port does: a sentence, where there would be silence or a bare number. */
import { createServer, type Server, STATUS_CODES } from 'node:http'
import type { Server as TlsServer } from 'node:https'
import type { Socket } from 'node:net'
import { html } from 'hono/html'
import { showsPages, wordsPage } from './http/words-page'

/** A TLS handshake begins with a record of this type (RFC 8446, 5.1); no HTTP method does. */
const HANDSHAKE = 22
const SILENT_MS = 30_000
const HOST = /^[A-Za-z0-9.-]+(:\d+)?$|^\[[0-9a-fA-F:]+\](:\d+)?$/

/** Whoever speaks plain HTTP to a port that speaks TLS is told the right address. */
export function tellPlainHttp(server: TlsServer, address: string): void {
  const speakTls = server.listeners('connection') as ((socket: Socket) => void)[]
  const plain = createServer(({ headers }, response) => {
    const { host } = headers
    const right = host && HOST.test(host) ? `https://${host}` : address
    response.statusCode = 400
    response.setHeader('Connection', 'close')
    if (showsPages(headers.accept)) {
      response.setHeader('Content-Type', 'text/html; charset=utf-8')
      response.end(
        `${wordsPage('This shop speaks HTTPS', html`<p>Go to <a href="${right}">${right}</a>, and keep that address.</p>`)}`,
      )
    } else
      respond(
        response.setHeader('Content-Type', 'application/json'),
        'https_needed',
        `This port speaks HTTPS alone. Ask at ${right}.`,
      )
  })
  answerGarbled(plain)
  server.removeAllListeners('connection')
  server.on('connection', (socket: Socket) => {
    const giveUp = () => socket.destroy()
    socket.setTimeout(SILENT_MS, giveUp)
    socket.on('error', giveUp)
    socket.once('data', (begins: Buffer) => {
      socket.pause()
      socket.setTimeout(0)
      socket.off('timeout', giveUp)
      socket.off('error', giveUp)
      socket.unshift(begins)
      if (begins[0] === HANDSHAKE) for (const speak of speakTls) speak.call(server, socket)
      else {
        plain.emit('connection', socket)
        socket.resume()
      }
    })
  })
}

const respond = (response: { end(text: string): unknown }, code: string, sentence: string) =>
  response.end(JSON.stringify({ ok: false, code, sentence }))

const STATUS: Record<string, number> = { HPE_HEADER_OVERFLOW: 431, ERR_HTTP_REQUEST_TIMEOUT: 408 }

/** What is no HTTP, or too much of it before anything is asked. */
export function answerGarbled(server: Server): void {
  server.on('clientError', (error: NodeJS.ErrnoException, socket) => {
    if (error.code === 'ECONNRESET' || !socket.writable) return socket.destroy()
    const status = STATUS[error.code ?? ''] ?? 400
    const sentence =
      status === 431
        ? 'The request’s head is longer than the server reads. Ask with less in the address and the headers.'
        : status === 408
          ? 'The request did not come whole in time. Send it again.'
          : 'The server could not read this request: it is not HTTP as RFC 9112 has it.'
    const body = JSON.stringify({ ok: false, code: 'bad_request', sentence })
    socket.end(
      `HTTP/1.1 ${status} ${STATUS_CODES[status]}\r\nContent-Type: application/json\r\nContent-Length: ${Buffer.byteLength(body)}\r\nConnection: close\r\n\r\n${body}`,
    )
  })
}
