/**
 * Everything that can happen while something is entered. A fault is armed for one entry and happens to it where it passes,
 * or strikes the device or the server soon after it was entered.
 */
import { linkDown, loseStore, ON_THE_SHELF } from './browser'
import {
  changePerson,
  closePageOf,
  type Device,
  type Floor,
  forgetWhatLayOnly,
  HANDS,
  openPageOn,
  restoreFrom,
} from './floor'
import { AT_THE_SERVER, type Backup } from './house'
import { network, ON_THE_WAY } from './network'
import { act, after, between, NOBODY, oneOf, pass } from './world'

export interface FaultKind {
  name: string
  /** Before anything else can happen to it: what is entered is known by this key. */
  arm?(floor: Floor, device: Device, key: string): void
  /** A while after it was entered. */
  strike?(floor: Floor, device: Device): Promise<void>
}

const SECOND = 1000
const HOUR = 3600 * SECOND
const DAY = 24 * HOUR
const JUMPS: readonly (readonly [string, number])[] = [
  ['a second', SECOND],
  ['an hour', HOUR],
  ['a day', DAY],
  ['a year', 365 * DAY],
]
const jumps = (whose: string, jump: (floor: Floor, device: Device, ms: number) => void): FaultKind[] =>
  JUMPS.flatMap(([size, ms]) =>
    (
      [
        ['ahead', ms],
        ['back', -ms],
      ] as const
    ).map(([way, by]) => ({
      name: `${whose} clock jumps ${size} ${way}`,
      async strike(floor, device) {
        jump(floor, device, by)
      },
    })),
  )

/** A tab is closed, and after a while the app is opened again. */
async function closed(floor: Floor, device: Device, page = device.open[0]): Promise<void> {
  if (page) closePageOf(floor, page)
  if (device.open.length > 0) return
  await pass(between(0, 3000))
  await openPageOn(floor, device)
}

async function otherBuild({ house }: Floor, by: number): Promise<void> {
  house.build += by
  house.kill()
}

/** Whoever signed in since has to again. */
async function restored(floor: Floor, backup: Backup | undefined): Promise<void> {
  if (!backup) return
  await restoreFrom(floor, backup)
  await pass(between(9000, 60_000))
  for (const device of floor.devices)
    if (!device.open.some(({ live }) => live.session.signInId()))
      await changePerson(floor, device, device.person)
}

export const FAULTS: readonly FaultKind[] = [
  ...ON_THE_WAY.map((what) => ({
    name: what,
    arm: (_: Floor, __: Device, key: string) => void network.armed.set(key, what),
  })),
  ...AT_THE_SERVER.map((what) => ({
    name: what,
    arm: ({ house }: Floor, _: Device, key: string) => void house.armed.set(key, what),
  })),
  ...ON_THE_SHELF.map((what) => ({
    name: what,
    arm: (_: Floor, device: Device, key: string) => void device.armed.set(key, what),
  })),
  { name: 'poisoned', arm: ({ house }, _, key) => void house.poison.add(key) },
  {
    name: 'link down',
    async strike(_, device) {
      linkDown(device)
      after(between(50, 600_000), NOBODY, () => {
        device.linkUp = true
      })
    },
  },
  {
    name: 'server killed',
    async strike({ house }) {
      house.kill()
    },
  },
  { name: 'page reloaded', strike: (floor, device) => closed(floor, device) },
  {
    name: 'tab closed, another open',
    async strike(floor, device) {
      const first = device.open[0]
      await openPageOn(floor, device)
      await pass(between(0, 2000))
      await closed(floor, device, first)
    },
  },
  {
    name: 'another tab opened',
    async strike(floor, device) {
      if (device.open.length < 3) await openPageOn(floor, device)
    },
  },
  {
    name: 'browser closed for a night',
    async strike(floor, device) {
      for (const page of [...device.open]) closePageOf(floor, page)
      await pass(10 * HOUR)
      await openPageOn(floor, device)
    },
  },
  {
    name: 'store lost',
    async strike(floor, device) {
      loseStore(device, false)
      forgetWhatLayOnly(floor, device)
    },
  },
  {
    name: 'everything of the origin lost',
    async strike(floor, device) {
      loseStore(device, true)
      forgetWhatLayOnly(floor, device)
      await pass(between(200, 5000))
      await changePerson(floor, device, device.person)
    },
  },
  {
    name: 'another person signs in',
    async strike(floor, device) {
      await changePerson(floor, device, oneOf(HANDS))
    },
  },
  {
    name: 'signed out, and in again',
    async strike(floor, device) {
      const [page] = device.open
      if (page) await act(page, () => void page.live.session.signOut())
      await pass(between(10, 8000))
      await changePerson(floor, device, device.person)
    },
  },
  {
    name: 'server renewed: its pages are of an older build',
    strike: (floor) => otherBuild(floor, 1),
  },
  {
    name: 'server as it was before: its pages are of a newer build',
    strike: (floor) => otherBuild(floor, -1),
  },
  {
    name: 'restored from the last backup',
    strike: (floor) => restored(floor, floor.house.backups.at(-1)),
  },
  {
    name: 'restored from an older backup',
    strike: (floor) => restored(floor, oneOf(floor.house.backups)),
  },
  {
    name: 'bad air',
    async strike(_, device) {
      for (const page of device.open) page.badAir = true
      after(between(1000, 60_000), NOBODY, () => {
        for (const page of device.open) page.badAir = false
      })
    },
  },
  ...jumps('the device’s', (_, device, ms) => {
    device.clockAheadMs += ms
  }),
  ...jumps('the server’s', ({ house }, __, ms) => {
    house.clock.aheadMs += ms
  }),
]
