/** A shop on the network: HTTP and sockets on one port, until it is told to stop. */
import { createServer, type RequestListener, type Server } from 'node:http'
import { createServer as createTlsServer, type Server as TlsServer } from 'node:https'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { getRequestListener } from '@hono/node-server'
import { addressOf, isLoopback } from './addresses'
import { counting } from './box/tally'
import type { Log } from './desk'
import { openGateway } from './gateway/gateway'
import { makeApp } from './http/app'
import type { Demo, Rooms } from './http/parts'
import type { OpenShop } from './open-shop'
import { answerGarbled, tellPlainHttp } from './plain-words'
import { makePurses } from './purse'
import { repoFolder } from './repo-folder'
import { Refused, type Settings } from './settings'
import { type ShopCertificate, shopCertificate } from './tls'

export interface Serving {
  address: string
  /** Where the server made its own certificate: what a tablet must show before it is trusted. */
  fingerprint?: string
  /** Of the one that takes over, and when. */
  next?: { fingerprint: string; from: number }
  close(): Promise<void>
}

/**
 * The port is taken before anything of the shop is opened or made, so that a start which fails here leaves nothing
 * behind. Whoever calls meanwhile waits.
 */
export interface Door {
  address: string
  serve(shop: OpenShop, more: ServeParts): Promise<Serving>
  close(): Promise<void>
}

export interface ServeParts {
  cookieName: string
  log: Log
  demo?: Demo
  /** Printed on the console; whoever opens the shop types it. Without one nobody can. */
  firstRunCode?: string
}

export async function openDoor(settings: Settings): Promise<Door> {
  const { host, tls, behindProxy, dataFolder, metricsToken } = settings
  let open: (listener: RequestListener) => void = () => undefined
  const opened = new Promise<RequestListener>((resolve) => {
    open = resolve
  })
  const answer: RequestListener = async (request, response) => (await opened)(request, response)
  const server = tls ? createTlsServer(TLS, answer) : createServer(answer)
  const port = await listen(server as Server, settings)
  const address = addressOf(tls ? 'https' : 'http', host, port)
  answerGarbled(server as Server)
  if (tls) tellPlainHttp(server as TlsServer, address)
  return {
    address,
    async serve(shop, { cookieName, log, demo, firstRunCode }) {
      let certificate: ShopCertificate | undefined
      const certify = async () => {
        certificate = await shopCertificate(dataFolder, host, Date.now())
        const { key, cert } = certificate
        ;(server as TlsServer).setSecureContext({ ...TLS, key, cert })
      }
      if (tls) await certify()
      // A server that runs for years renews its certificates too.
      const renew = () =>
        void certify().catch((err) => log.error({ err }, 'The certificate could not be renewed.'))
      const daily = tls ? setInterval(renew, DAY_MS).unref() : undefined
      const rooms: Rooms = {
        ...shop,
        ...counting(shop.intake),
        purses: makePurses(shop.monotonic),
        log,
        ...(demo ? { demo } : {}),
        ...(firstRunCode ? { firstRunCode } : {}),
        web: {
          cookieName,
          secure: tls || behindProxy,
          loopbackOnly: isLoopback(host) && !behindProxy,
          behindProxy,
          ...(metricsToken === undefined ? {} : { metricsToken }),
          folder: join(repoFolder(), 'dist', 'web'),
          trusted: () => certificate,
        },
      }
      const gateway = openGateway(server as Server, rooms)
      shop.subscribe(gateway.publish)
      open(getRequestListener(makeApp(rooms).fetch, { overrideGlobalObjects: false }))
      return {
        address,
        ...(certificate ? { fingerprint: certificate.fingerprint } : {}),
        ...(certificate?.next ? { next: certificate.next } : {}),
        close() {
          clearInterval(daily)
          return gateway.close()
        },
      }
    },
    close: () => new Promise((resolve) => void server.close(() => resolve())),
  }
}

/** Where nothing is to be kept from being made when the port is taken. */
export const serve = async (shop: OpenShop, settings: Settings, parts: ServeParts): Promise<Serving> =>
  (await openDoor(settings)).serve(shop, parts)

const DAY_MS = 86_400_000
const TLS = { minVersion: 'TLSv1.2' } as const

function listen(server: Server, { port, host }: Settings): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(inWords(error, host, port)))
    server.listen(port, host, () => resolve((server.address() as AddressInfo).port))
  })
}

function inWords(error: NodeJS.ErrnoException, host: string, port: number): Error {
  switch (error.code) {
    case 'EADDRINUSE':
      return new Refused(
        `Port ${port} on ${host} is taken, perhaps by another Paintmark. Stop that one, or choose another port: PORT=${port === 65_535 ? port - 1 : port + 1}.`,
      )
    case 'EACCES':
      return new Refused(`This account may not use port ${port}. Choose one above 1023 with PORT.`)
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return new Refused(`HOST is "${host}", which is not an address of this machine. Choose one of its own.`)
    default:
      return error
  }
}
