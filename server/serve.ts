/** A shop on the network: HTTP and sockets on one port, until it is told to stop. */
import { createServer, type Server } from 'node:http'
import { createServer as createTlsServer } from 'node:https'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { getRequestListener } from '@hono/node-server'
import { addressOf, isLoopback } from './addresses'
import type { Log } from './desk'
import { openGateway } from './gateway/gateway'
import { makeApp } from './http/app'
import type { Demo, Rooms } from './http/parts'
import type { OpenShop } from './open-shop'
import { repoFolder } from './repo-folder'
import { Refused, type Settings } from './settings'
import { shopCertificate } from './tls'

export interface Serving {
  address: string
  /** Where the server made its own certificate: what a tablet must show before it is trusted. */
  fingerprint?: string
  close(): Promise<void>
}

export async function serve(
  shop: OpenShop,
  settings: Settings,
  { cookieName, log, demo }: { cookieName: string; log: Log; demo?: Demo },
): Promise<Serving> {
  const { host, tls, behindProxy, dataFolder } = settings
  const certificate = tls ? await shopCertificate(dataFolder, host, Date.now()) : undefined
  const rooms: Rooms = {
    ...shop,
    log,
    ...(demo ? { demo } : {}),
    web: {
      cookieName,
      secure: tls || behindProxy,
      loopbackOnly: isLoopback(host) && !behindProxy,
      folder: join(repoFolder(), 'dist', 'web'),
      ...(certificate ? { certificate: certificate.authority } : {}),
    },
  }
  const listener = getRequestListener(makeApp(rooms).fetch, { overrideGlobalObjects: false })
  const server = certificate
    ? createTlsServer({ key: certificate.key, cert: certificate.cert, minVersion: 'TLSv1.2' }, listener)
    : createServer(listener)
  const gateway = openGateway(server as Server, rooms)
  shop.subscribe(gateway.publish)
  const port = await listen(server as Server, settings)
  return {
    address: addressOf(tls ? 'https' : 'http', host, port),
    ...(certificate ? { fingerprint: certificate.fingerprint } : {}),
    close: () => gateway.close(),
  }
}

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
      return new Refused(`HOST is "${host}", which is no address of this machine. Choose one of its own.`)
    default:
      return error
  }
}
