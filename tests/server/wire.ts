/** A house with its doors open: the server listens, and real socket.io clients come in. */
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { getRequestListener } from '@hono/node-server'
import { io, type Socket } from 'socket.io-client'
import { type Gateway, openGateway } from '../../server/gateway/gateway'
import { answerGarbled } from '../../server/plain-words'
import type { ClientToServer, ServerToClient } from '../../shared/protocol'
import { browser, makeHouse, type PINS } from './house'

export type Client = Socket<ServerToClient, ClientToServer>

export interface Message {
  name: 'events' | 'summary' | 'presence' | 'reload' | 'epoch' | 'ack'
  message: { from?: number; events?: unknown[]; version?: number; [key: string]: unknown }
}

export async function makeWire(options: Parameters<typeof makeHouse>[0] = {}) {
  const house = await makeHouse(options)
  const server: Server = createServer(getRequestListener(house.app.fetch, { overrideGlobalObjects: false }))
  answerGarbled(server)
  const gateway: Gateway = openGateway(server, house.rooms)
  house.shop.subscribe(gateway.publish)
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  const clients: Client[] = []

  function connect(cookie: string, headers: Record<string, string> = {}) {
    const client: Client = io(address, {
      transports: ['websocket'],
      forceNew: true,
      reconnection: false,
      extraHeaders: { cookie, origin: address, ...headers },
    })
    clients.push(client)
    const messages: Message[] = []
    client.onAny((name, message) => messages.push({ name, message }))
    const open = new Promise<void>((resolve, reject) => {
      client.once('connect', resolve)
      client.once('connect_error', reject)
    })
    /** With its place among what came: an ack is put in the same list. */
    const ask = <T = Record<string, never>>(event: string, ...args: unknown[]): Promise<T> =>
      new Promise((resolve, reject) => {
        const late = setTimeout(() => reject(new Error(`No answer to ${event} in 5 s.`)), 5000)
        client.emit(event as 'watch', ...(args as [never]), ((answer: never) => {
          clearTimeout(late)
          messages.push({ name: 'ack', message: answer })
          resolve(answer as T)
        }) as never)
      })
    return { client, messages, open, ask }
  }

  return {
    house,
    address,
    connect,
    /** Signs in and connects. */
    async at(personId: keyof typeof PINS) {
      const page = browser(house.app)
      const signInId = await page.signIn(personId)
      const line = connect(page.jar.cookie)
      await line.open
      return { ...line, page, signInId }
    },
    async close() {
      for (const client of clients) client.disconnect()
      await gateway.close()
      await house.close()
    },
  }
}

/** Until it holds, or a sentence that says what was waited for. */
export async function until(what: string, holds: () => boolean, ms = 3000): Promise<void> {
  const end = Date.now() + ms
  while (!holds()) {
    if (Date.now() > end) throw new Error(`Waited ${ms} ms in vain: ${what}.`)
    await new Promise((resolve) => setTimeout(resolve, 5))
  }
}
