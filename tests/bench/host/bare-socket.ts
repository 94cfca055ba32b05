/**
 * The reference's server: socket.io as it comes, websocket only. A tap is a durable transaction of the same
 * rows, an answer to the sender, then one broadcast of the same bytes to everybody on the board. Taps that came
 * while the one before was written share the next transaction; a tap alone has its own.
 */
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { Server } from 'socket.io'
import { openBareStore, type RowsOfOne } from './bare-store'

export async function serveBare(file: string, rows: RowsOfOne, summary: { version: number }) {
  const store = openBareStore(file)
  const server = createServer()
  const io = new Server(server, { transports: ['websocket'], serveClient: false })
  const waiting: { message: { command: unknown }; ack(answer: unknown): void }[] = []
  let version = 0
  const next = (): RowsOfOne => {
    version += 1
    const [, stream, , body, hash] = rows.event
    return {
      event: [version, stream, version, body, hash],
      head: [stream, version, hash],
      answer: [`answer ${version}`, ...rows.answer.slice(1)],
      summary: rows.summary,
      reading: [rows.reading[0], `reading ${version}`, ...rows.reading.slice(2)],
    }
  }
  io.on('connection', (socket) => {
    socket.on('watch', (_message, ack) => {
      void socket.join('board')
      ack({ ok: true })
    })
    socket.on('command', (message, ack) => {
      if (waiting.length === 0) setImmediate(writeWaiting)
      waiting.push({ message, ack })
    })
  })
  function writeWaiting() {
    const first = version
    const taps = waiting.splice(0)
    store.write(...taps.map(next))
    for (const [index, { message, ack }] of taps.entries()) {
      const written = first + index + 1
      ack({
        ok: true,
        version: written,
        events: [{ version: written, recordedAt: Date.now(), event: message.command }],
      })
      io.to('board').emit('summary', { ...summary, version: written })
    }
  }
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return {
    origin: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    async close() {
      await io.close()
      store.close()
    },
  }
}
