/**
 * The bench's own state, shared by its panels: which pass of which round is shown, which wrench is in the hand,
 * which head is being looked at. Everything about the engine comes from the job; nothing here outlives the page.
 */
import { createContext, createEffect, createMemo, createSignal, on, useContext } from 'solid-js'
import type { Adapter, ReadingHow } from '../../../shared/job/types'
import { bandFor, curesUntil, stepState } from '../../../shared/job/verdicts'
import type { AdoptedStep } from '../../../shared/plan/types'
import type { Wrench } from '../../../shared/shop/types'
import type { JobScope } from '../../job/scope'
import { adapterNow, sameAdapter } from './adapter'
import { routeOf } from './order'
import { phaseOf } from './phase'
import { firstStation, type Station, stationsOf } from './stations'
import { loosens, nextPlace, type Place, type Round, sheetFor } from './work'
import { proposedWrench, scaleInForce, wrenchChoices, wrenchInHand } from './wrench'

interface BenchProps {
  scope: JobScope
  step: () => AdoptedStep
  /** Ticks, so that waits end while the page stands open. */
  now: () => number
}

export type Bench = ReturnType<typeof createBench>

export function createBench({ scope, step, now }: BenchProps) {
  const job = scope.planned
  const me = () => scope.me() ?? ''
  const stations = createMemo(() => stationsOf(job(), step(), now()))
  const opened = nextPlace(job(), step())
  const [stationKey, setStationKey] = createSignal(opened?.round ?? firstStation(stations()))
  const [passes, setPasses] = createSignal<Readonly<Record<string, number>>>(
    opened ? { [opened.round]: opened.pass } : {},
  )
  const [taken, setTaken] = createSignal<Readonly<Record<string, string>>>({})
  /** What was said of an adapter since the last stop, by joint and wrench; `null` for none. */
  const [said, setSaid] = createSignal<Readonly<Record<string, Adapter | null>>>({})
  const [fitting, setFitting] = createSignal(false)
  const [meant, setMeant] = createSignal<ReadonlySet<string>>(new Set())
  const [without, setWithout] = createSignal<ReadonlySet<string>>(new Set())
  const [again, setAgain] = createSignal<string>()
  const [looked, setLooked] = createSignal<number>()
  const [pointing, setPointing] = createSignal(false)
  const [hole, setHole] = createSignal<number>()

  const station = createMemo(
    (): Station => stations().find(({ key }) => key === stationKey()) ?? (stations().at(-1) as Station),
  )
  const round = createMemo((): Round | undefined => {
    const one = station()
    return one.kind === 'round' ? one.round : undefined
  })
  const pass = createMemo((): number => {
    const one = round()
    if (!one) return 1
    const chosen = passes()[one.key]
    if (chosen !== undefined) return chosen
    const next = nextPlace(job(), step(), { round: one.key, pass: 1 })
    return next?.round === one.key ? next.pass : one.joint.passes.length
  })
  const sheet = createMemo(() => {
    const one = round()
    return one && sheetFor(job(), one.joint, pass())
  })
  const band = () => {
    const one = round()
    return one ? bandFor(job(), one.joint, pass()) : null
  }

  const ranked = (fitted?: Adapter) => {
    const asked = sheet()
    return asked ? wrenchChoices(scope.shop(), asked, now(), { band: band(), adapter: fitted }) : []
  }
  const bare = createMemo(() => ranked())
  const wrench = createMemo((): Wrench | undefined => {
    const one = round()
    if (!one) return undefined
    const inHand = wrenchInHand(job(), one.joint.id, pass(), me())
    const chosen = taken()[`${one.joint.id}:${pass()}`] ?? inHand
    return bare().find(({ wrench: { id } }) => id === chosen)?.wrench ?? proposedWrench(bare())
  })
  const fitKey = () => `${round()?.joint.id}:${wrench()?.id}`
  const fitted = createMemo(() =>
    adapterNow(job(), { wrench: wrench(), jointId: round()?.joint.id ?? '', by: me() }, said()[fitKey()]),
  )
  const adapter = (): Adapter | undefined => {
    const found = fitted()
    return found.kind === 'on' ? found.adapter : undefined
  }
  const choices = createMemo(() => {
    const on = adapter()
    return on ? ranked(on) : bare()
  })
  const scale = () => {
    const one = round()
    const inHand = wrench()
    return one && inHand
      ? scaleInForce(job(), { wrenchId: inHand.id, jointId: one.joint.id, pass: pass(), by: me() })
      : undefined
  }
  const phase = createMemo(() => {
    const one = round()
    if (!one) return { kind: 'look' as const }
    const found = phaseOf({
      job: job(),
      step: step(),
      round: one,
      pass: pass(),
      me: me(),
      now: now(),
      wrench: wrench(),
      meant: meant(),
      without: without(),
    })
    // “Set it again and enter” asks for the number anew until another entry stands.
    if (
      (found.kind === 'held_up' || found.kind === 'record') &&
      again() !== undefined &&
      again() === scale()?.id
    ) {
      const inHand = wrench()
      if (inHand?.kind === 'click') return { kind: 'enter_scale' as const, wrench: inHand }
    }
    return found
  })

  const claim = () => stepState(job(), step().id).claim
  // After a stop, or in other hands, the adapter is asked again.
  createEffect(on([() => claim()?.by, () => claim()?.doneAt], () => setSaid({}), { defer: true }))
  const waiting = createMemo(() => {
    const one = round()
    const positions = scope
      .pending()
      .flatMap(({ command }) =>
        command.type === 'TakeReading' && command.jointId === one?.joint.id ? [command.position] : [],
      )
    return new Set(positions)
  })

  function go(place: Place): void {
    setPasses((all) => ({ ...all, [place.round]: place.pass }))
    setStationKey(place.round)
    setLooked(undefined)
  }

  /** Records a head in the pass shown. */
  function record(position: number, how: ReadingHow, more: { value?: number; readsSo?: boolean } = {}): void {
    const one = round()
    if (!one) return
    const inHand = how === 'slackened' ? undefined : wrench()
    void scope.send({
      type: 'TakeReading',
      jointId: one.joint.id,
      position,
      pass: pass(),
      how,
      ...(inHand ? { wrenchId: inHand.id } : {}),
      ...more,
    })
  }

  function enterScale(value: number): void {
    const one = round()
    const inHand = wrench()
    if (!one || !inHand) return
    setAgain(undefined)
    const on = adapter()
    void scope.send({
      type: 'EnterScale',
      jointId: one.joint.id,
      pass: pass(),
      wrenchId: inHand.id,
      value,
      ...(on ? { adapter: on } : {}),
    })
  }

  /** With another lever the number on the scale means another torque: it is set and entered again. */
  function sayAdapter(now: Adapter | null): void {
    const entered = scale()
    if (entered && !sameAdapter(entered.adapter, now ?? undefined)) setAgain(entered.id)
    setSaid((all) => ({ ...all, [fitKey()]: now }))
  }

  return {
    step,
    now,
    stations,
    station,
    goTo: (key: string) => {
      setLooked(undefined)
      setStationKey(key)
    },
    go,
    round,
    pass,
    sheet,
    /** Going another way round is held against a head; never for loosening, never for a proposal. */
    inTurn: () => {
      const one = round()
      return one?.ordered === true && !loosens(one, pass())
    },
    /** The way round that is drawn on the map. */
    route: () => {
      const one = round()
      const restart = phase()
      if (!one) return undefined
      const takesOff = restart.kind === 'restart' && restart.broken.mark.asks === 'slackened'
      return routeOf(one, takesOff || loosens(one, pass()))
    },
    band,
    choices,
    wrench,
    /** The wrench in hand as it is ranked. */
    picked: () => choices().find((one) => one.wrench.id === wrench()?.id),
    /** What stands between wrench and fastener, or the question whether it still does. */
    fitted,
    adapter,
    /** The adapter known to be on a wrench in a joint of this step. */
    adapterOn: (one: Wrench, jointId: string): Adapter | undefined => {
      const found = adapterNow(job(), { wrench: one, jointId, by: me() }, said()[`${jointId}:${one.id}`])
      return found.kind === 'on' ? found.adapter : undefined
    },
    sayAdapter,
    /** The sheet on which an adapter is entered. */
    fitting,
    fit: setFitting,
    take: (wrenchId: string) => setTaken((all) => ({ ...all, [`${round()?.joint.id}:${pass()}`]: wrenchId })),
    scale,
    phase,
    record,
    enterScale,
    askAgain: () => setAgain(scale()?.id),
    sayMeant: (scaleId: string) => setMeant((all) => new Set([...all, scaleId])),
    /** Goes on although the rule after a stop was not followed: what is recorded then is flagged. */
    goOnWithout: (jointId: string) => setWithout((all) => new Set([...all, jointId])),
    /** To what comes next in this round, after it begins again. */
    openNext: () => {
      const one = round()
      const next = one && nextPlace(job(), step(), { round: one.key, pass: 1 })
      if (next) go(next)
    },
    mine: () => claim()?.by === me(),
    waiting,
    /** The head whose readings are open. */
    looked,
    look: (n: number | undefined) => {
      setPointing(false)
      setLooked(n)
    },
    /** The hole whose sheet is open, by its position in the round shown. */
    hole,
    openHole: (n: number | undefined) => {
      setLooked(undefined)
      setPointing(false)
      setHole(n)
    },
    /** Until when the insert in a hole of the round shown cures, while it does. */
    curing: (n: number): number | undefined => {
      const until = curesUntil(job(), round()?.joint.id ?? '', n)
      return until > now() ? until : undefined
    },
    /** The next tap on the map opens a head instead of recording it. */
    pointing,
    point: setPointing,
  }
}

export const BenchContext = createContext<Bench>()

export function useBench(): Bench {
  const bench = useContext(BenchContext)
  if (!bench) throw new Error('useBench is called outside a bench page')
  return bench
}
