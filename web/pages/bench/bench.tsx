/**
 * The bench's own state, shared by its panels: which pass of which round is shown, which wrench is in the hand,
 * which head is being looked at. Everything about the engine comes from the job; nothing here outlives the page.
 */
import { createContext, createEffect, createMemo, createSignal, on, useContext } from 'solid-js'
import type { FastenerCondition, ReadingHow } from '../../../shared/job/kinds'
import { scaleInForce } from '../../../shared/job/scale-in-force'
import type { Adapter, PlannedJob, ScaleEntry } from '../../../shared/job/types'
import { bandFor, curesUntil, standingMeasurement, stepState } from '../../../shared/job/verdicts'
import type { AdoptedJoint, AdoptedStep } from '../../../shared/plan/types'
import type { Wrench } from '../../../shared/shop/types'
import type { WaitingAs } from '../../drawings/heads'
import type { JobScope } from '../../job/scope'
import type { Dialogs } from '../../ui/dialogs'
import { adapterNow, sameAdapter } from './adapter'
import { routeOf } from './order'
import { type Phase, phaseOf } from './phase'
import { isSetElsewhere, noteSetFor } from './set-for'
import { firstStation, type Station, stationsOf } from './stations'
import { type BenchTarget, loosens, nextTarget, type Round, sheetFor } from './work'
import { proposedWrench, wrenchChoices, wrenchInHand } from './wrench'

/** The bench's own dialogs; those of holds, deferrals and notes stand in `web/job`. */
export type BenchDialog =
  | { dialog: 'head'; joint: AdoptedJoint; position: number }
  | { dialog: 'hole'; joint: AdoptedJoint; position: number }
  /** A head that one tap cannot record. */
  | { dialog: 'answer'; position: number }
  | { dialog: 'scale' }
  | { dialog: 'wrenches' }
  | { dialog: 'measure' }
  | { dialog: 'second'; setId: string }
  | { dialog: 'leave' }

/** One place of one measurement. */
export interface Spot {
  measurement: string
  place: string
}

interface BenchProps {
  scope: JobScope
  step: () => AdoptedStep
  /** Ticks, so that waits end while the page stands open. */
  now: () => number
  /** A phone: pads open as dialogs, and fewer words stand beside the work. */
  narrow: () => boolean
  dialogs: Pick<Dialogs<BenchDialog>, 'open' | 'close'>
}

export type Bench = ReturnType<typeof createBench>

export function createBench({ scope, step, now, narrow, dialogs }: BenchProps) {
  const job = scope.planned
  const me = () => scope.me() ?? ''
  const stations = createMemo(() => stationsOf(job(), step(), now()))
  const first = nextTarget(job(), step())
  const [stationKey, setStationKey] = createSignal(first?.round ?? firstStation(stations()))
  const [passes, setPasses] = createSignal<Readonly<Record<string, number>>>(
    first ? { [first.round]: first.pass } : {},
  )
  /** Wrenches chosen by hand, by joint and pass. */
  const [chosenWrenches, setChosenWrenches] = createSignal<Readonly<Record<string, string>>>({})
  /** Adapters stated since the last stop, by joint and wrench; `null` for none. */
  const [adapters, setAdapters] = createSignal<Readonly<Record<string, Adapter | null>>>({})
  const [fitting, setFitting] = createSignal(false)
  const [confirmedScales, setConfirmedScales] = createSignal<ReadonlySet<string>>(new Set())
  const [skippedRestarts, setSkippedRestarts] = createSignal<ReadonlySet<string>>(new Set())
  const [scaleToReenter, setScaleToReenter] = createSignal<string>()
  const [pointing, setPointing] = createSignal(false)
  const [chosenSpot, chooseSpot] = createSignal<Spot>()

  const station = createMemo(
    (): Station => stations().find(({ key }) => key === stationKey()) ?? (stations().at(-1) as Station),
  )
  const round = createMemo((): Round | undefined => {
    const shown = station()
    return shown.kind === 'round' ? shown.round : undefined
  })
  const joint = () => round()?.joint
  const jointId = () => joint()?.id ?? ''
  const pass = createMemo((): number => {
    const current = round()
    if (!current) return 1
    const chosen = passes()[current.key]
    if (chosen !== undefined) return chosen
    const next = nextTarget(job(), step(), { round: current.key, pass: 1 })
    return next?.round === current.key ? next.pass : current.joint.passes.length
  })
  const sheet = createMemo(() => {
    const current = round()
    return current && sheetFor(job(), current.joint, pass())
  })
  const band = () => {
    const current = round()
    return current ? bandFor(job(), current.joint, pass()) : null
  }

  const rankedWrenches = (adapter?: Adapter) => {
    const current = sheet()
    return current ? wrenchChoices(scope.shop(), current, now(), { band: band(), adapter }) : []
  }
  const bareWrenches = createMemo(() => rankedWrenches())
  const wrenchKey = () => `${round()?.joint.id}:${pass()}`
  const wrench = createMemo((): Wrench | undefined => {
    if (!round()) return undefined
    const id = chosenWrenches()[wrenchKey()] ?? wrenchInHand(job(), jointId(), pass(), me())
    return bareWrenches().find(({ wrench }) => wrench.id === id)?.wrench ?? proposedWrench(bareWrenches())
  })
  const adapterKey = () => `${round()?.joint.id}:${wrench()?.id}`
  const adapterState = createMemo(() =>
    adapterNow(job(), { wrench: wrench(), jointId: jointId(), by: me() }, adapters()[adapterKey()]),
  )
  const adapter = (): Adapter | undefined => {
    const state = adapterState()
    return state.kind === 'on' ? state.adapter : undefined
  }
  const choices = createMemo(() => {
    const fitted = adapter()
    return fitted ? rankedWrenches(fitted) : bareWrenches()
  })
  const scale = () => {
    const inHand = wrench()
    return round() && inHand
      ? scaleInForce(job(), { wrenchId: inHand.id, jointId: jointId(), pass: pass() }, me())
      : undefined
  }
  const target = () => `${job().id} ${jointId()} ${pass()}`
  const isToReenter = (entry: ScaleEntry | undefined): boolean =>
    entry !== undefined && (scaleToReenter() === entry.id || isSetElsewhere(entry.wrenchId, target()))
  const phase = createMemo((): Phase => {
    const current = round()
    if (!current) return { kind: 'look' }
    const next = phaseOf({
      job: job(),
      step: step(),
      round: current,
      pass: pass(),
      me: me(),
      now: now(),
      wrench: wrench(),
      confirmedScales: confirmedScales(),
      skippedRestarts: skippedRestarts(),
    })
    // “Set it again and enter” asks for the number anew until another entry stands; so does a wrench that was set for
    // another engine since.
    if ((next.kind === 'held_up' || next.kind === 'record') && isToReenter(scale())) {
      const inHand = wrench()
      if (inHand?.kind === 'click') return { kind: 'enter_scale', wrench: inHand }
    }
    return next
  })

  const recording = () => {
    const current = phase()
    return current.kind === 'record' ? current : undefined
  }

  const spots = createMemo((): Spot[] =>
    step().measurements.flatMap(({ id, places }) => places.map((place) => ({ measurement: id, place }))),
  )
  const openSpot = () =>
    spots().find(
      ({ measurement, place }) =>
        !standingMeasurement(stepState(job(), step().id), measurement, place)?.inBand,
    )
  const spot = () => chosenSpot() ?? openSpot() ?? spots()[0]

  const claim = () => stepState(job(), step().id).claim
  // After a stop, or in other hands, the adapter is asked again.
  createEffect(on([() => claim()?.by, () => claim()?.doneAt], () => setAdapters({}), { defer: true }))
  const waiting = createMemo(() => {
    const ofJoint = scope
      .pending()
      .flatMap(({ command }) =>
        command.type === 'TakeReading' && command.jointId === round()?.joint.id ? [command] : [],
      )
    return new Map(
      ofJoint.map(({ position, commandId }): [number, WaitingAs] => [
        position,
        scope.isKept(commandId) ? 'kept' : 'pending',
      ]),
    )
  })

  function openPass(target: BenchTarget): void {
    setPasses((all) => ({ ...all, [target.round]: target.pass }))
    setStationKey(target.round)
    dialogs.close()
  }

  /** Records a head in the pass shown. */
  function record(position: number, how: ReadingHow, more: { value?: number; readsSo?: boolean } = {}): void {
    if (!round()) return
    const inHand = how === 'slackened' ? undefined : wrench()
    void scope.send({
      type: 'TakeReading',
      jointId: jointId(),
      position,
      pass: pass(),
      how,
      ...(inHand ? { wrenchId: inHand.id } : {}),
      ...more,
    })
  }

  function enterScale(value: number): void {
    const inHand = wrench()
    if (!round() || !inHand) return
    setScaleToReenter(undefined)
    noteSetFor(inHand.id, target())
    const fitted = adapter()
    void scope.send({
      type: 'EnterScale',
      jointId: jointId(),
      pass: pass(),
      wrenchId: inHand.id,
      value,
      ...(fitted ? { adapter: fitted } : {}),
    })
  }

  /** With another lever the number on the scale means another torque: it is set and entered again. */
  function setAdapter(next: Adapter | null): void {
    const entered = scale()
    if (entered && !sameAdapter(entered.adapter, next ?? undefined)) setScaleToReenter(entered.id)
    setAdapters((all) => ({ ...all, [adapterKey()]: next }))
  }

  /** Records which fasteners stand in these places. */
  function place(
    joint: AdoptedJoint,
    positions: number[],
    condition: FastenerCondition,
    more: { cycle?: number; lengthMm?: number } = {},
  ): void {
    void scope.send({ type: 'PlaceFasteners', jointId: joint.id, positions, condition, ...more })
  }

  /** To the number that is asked: its own dialog, or the pad in the action column. */
  function askNumber(): void {
    const head = recording()?.head
    if (narrow() && phase().kind === 'enter_scale') dialogs.open({ dialog: 'scale' })
    else if (head !== undefined) dialogs.open({ dialog: 'answer', position: head })
    else document.querySelector<HTMLElement>('.bench-action .entry, .bench-action .stop')?.focus()
  }

  function show(dialog: 'head' | 'hole', position: number): void {
    const shown = joint()
    setPointing(false)
    if (shown) dialogs.open({ dialog, joint: shown, position })
  }

  return {
    step,
    now,
    narrow,
    ...dialogs,
    stations,
    station,
    openStation: (key: string) => {
      dialogs.close()
      setStationKey(key)
    },
    openPass,
    round,
    joint,
    /** What there is to say of the round shown. */
    ofRound: <T,>(view: (job: PlannedJob, round: Round) => T) =>
      createMemo(() => {
        const current = round()
        return current && view(job(), current)
      }),
    pass,
    sheet,
    /** Going another way round is held against a head; never for loosening, never for a proposal. */
    inTurn: () => {
      const current = round()
      return current?.ordered === true && !loosens(current, pass())
    },
    /** The way round that is drawn on the map. */
    route: () => {
      const current = round()
      const next = phase()
      if (!current) return undefined
      const takesOff = next.kind === 'restart' && next.broken.mark.asks === 'slackened'
      return routeOf(current, takesOff || loosens(current, pass()))
    },
    band,
    wrenchChoices: choices,
    wrench,
    /** The wrench in hand as it is ranked. */
    wrenchChoice: () => choices().find((choice) => choice.wrench.id === wrench()?.id),
    /** What stands between wrench and fastener, or the question whether it still does. */
    adapterState,
    adapter,
    /** The adapter known to be on a wrench in a joint of this step. */
    adapterOn: (wrench: Wrench, jointId: string): Adapter | undefined => {
      const state = adapterNow(job(), { wrench, jointId, by: me() }, adapters()[`${jointId}:${wrench.id}`])
      return state.kind === 'on' ? state.adapter : undefined
    },
    setAdapter,
    /** The sheet on which an adapter is entered. */
    fitting,
    setFitting,
    takeWrench: (wrenchId: string) => setChosenWrenches((all) => ({ ...all, [wrenchKey()]: wrenchId })),
    scale,
    phase,
    /** The head to record now, and how. */
    recording,
    record,
    place,
    askNumber,
    enterScale,
    reenterScale: () => setScaleToReenter(scale()?.id),
    confirmScale: (scaleId: string) => setConfirmedScales((all) => new Set([...all, scaleId])),
    /** Goes on although the rule after a stop was not followed: what is recorded then is flagged. */
    skipRestart: (jointId: string) => setSkippedRestarts((all) => new Set([...all, jointId])),
    /** To what comes next in this round, after it begins again. */
    openNextPass: () => {
      const current = round()
      const next = current && nextTarget(job(), step(), { round: current.key, pass: 1 })
      if (next) openPass(next)
    },
    mine: () => claim()?.by === me(),
    waiting,
    /** One head: its readings, and what stands there. */
    showHead: (position: number) => show('head', position),
    showHole: (position: number) => show('hole', position),
    /** Until when the insert in a hole of the round shown cures, while it does. */
    curing: (n: number): number | undefined => {
      const until = curesUntil(job(), jointId(), n)
      return until > now() ? until : undefined
    },
    /** The next tap on the map opens a head instead of recording it. */
    pointing,
    setPointing,
    /** Where it is measured now: as chosen, else the first that is open. */
    spot,
    chooseSpot,
    nextSpot: () => {
      const now = spots().findIndex(
        ({ measurement, place }) => measurement === spot()?.measurement && place === spot()?.place,
      )
      chooseSpot(spots()[now + 1] ?? openSpot())
    },
  }
}

export const BenchContext = createContext<Bench>()

export function useBench(): Bench {
  const bench = useContext(BenchContext)
  if (!bench) throw new Error('useBench is called outside a bench page')
  return bench
}
