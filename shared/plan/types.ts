/**
 * A build plan: the ordered steps of one engine family, as the shop keeps them in its library.
 *
 * The plan is a shop's copy of the maker's information at a named edition; the maker's page governs.
 * `Plan` is what a plan file holds (`schema.ts` reads it). `AdoptedPlan` is the copy inside a job:
 * every pass carries the band it is judged by, frozen on the day of adoption (`adopt.ts`).
 * Units stand in the names: N·m, degrees, mm, minutes.
 */
import type { JointClass, ReleaseKind } from './kinds'

export interface Plan {
  /** Names the layout of this file; a reader refuses a number it does not know. */
  format: 'paintmark-plan/1'
  id: string
  edition: number
  title: string
  /** What entitlements are given by, e.g. `diesel`, `petrol`, `motorcycle`. */
  family: string
  /** Where the values come from: title, edition, page. */
  source: string
  /** True when the values were made up for a demonstration; shown wherever they are. */
  invented?: boolean
  notices?: string[]
  stages: Stage[]
  steps: PlanStep[]
}

export interface Stage {
  id: string
  title: string
  /** This stage's last signature opens the release of that name. */
  releases?: ReleaseKind
}

export type StepKind = 'prepare' | 'measure' | 'fit' | 'tighten' | 'check' | 'run'

export interface PlanStep {
  id: string
  stage: string
  title: string
  kind: StepKind
  /** Steps whose doer must have signed before this one can be claimed. */
  needs: string[]
  /** From this step's first fact on, these can no longer be reached. */
  hides: Fasteners[]
  minutes: { low: number; likely: number; high: number }
  /** 2: the doer and another entitled person. */
  signatures: 1 | 2
  /** Positions signed on their own (one cap); what no set covers is the step's own set. */
  sets?: SignatureSet[]
  notes?: string[]
  cautions?: string[]
  joints: Joint[]
  measurements: Measurement[]
  sealant?: Sealant
  parts: Part[]
  gates: Gate[]
}

/** Some fasteners of one joint; without `positions`, all of them. */
export interface Fasteners {
  joint: string
  positions?: number[]
}

export interface SignatureSet {
  id: string
  title: string
  covers: Fasteners[]
}

/** Like fasteners that share one specification within a step. */
export interface Joint {
  id: string
  title: string
  fastener: 'bolt' | 'nut' | 'stud' | 'plug' | 'union' | 'sender' | 'injector'
  /** As printed: `M10x1.25`, `R1/8`. */
  thread: string
  /** Property class or what it is made of: `10.9`, `A4-70`, `bronze`. */
  grade: string
  lengthMm?: number
  /** Of a bolt with a shank: how long its own thread is, as printed; else the standard's length is assumed, and asked about. */
  boltThreadMm?: number
  /** What the bolts go into, where the plan knows it: then a bolt's fit is reckoned before it is fitted. */
  hole?: TappedHole
  lubrication: string
  class: JointClass
  /** One-use: never fitted twice. A cycle limit counts every tightening, trial fits too. */
  use: { kind: 'reusable' } | { kind: 'one_use' } | { kind: 'cycles'; limit: number }
  positions: Position[]
  /** What the fasteners sit on, drawn under the map; in the units of `x` and `y`. */
  outline?: OutlineShape[]
  /** The tightening order by position number; without it any order is right. */
  order?: number[]
  passes: Pass[]
  interruption: Interruption
  /** This joint looks again at fasteners of an earlier step; they are not counted twice. */
  recheckOf?: string
  /** Holes of another joint's part that these bolts close as well; that joint need have none of its own there. */
  clampsAlso?: Fasteners[]
  notes?: string[]
}

/** A tapped hole; lengths in mm, depths from the face that the stack sits on. */
export interface TappedHole {
  /** What it is tapped in, by the name `shared/fastener` knows it: `cast iron`, `cast aluminium`. */
  material: string
  /** What the bolt clamps, without the washer. */
  stackMm: number
  washerMm?: number
  /** Of a stud: what of it stands above stack and washer, in the nut and beyond. The length is then the stud's. */
  aboveMm?: number
  /** Drilled; without it the hole goes through. */
  depthMm?: number
  /** Full thread, counted from the same face. */
  threadMm: number
}

/** One fastener; `x` to the right and `y` down, in mm or any one unit of the map. */
export interface Position {
  n: number
  x: number
  y: number
  /** Where the trade names it: `front`, `2A`. */
  label?: string
}

export type OutlineShape =
  | { shape: 'rect'; x: number; y: number; w: number; h: number; r?: number }
  | { shape: 'circle'; x: number; y: number; r: number }
  | { shape: 'path'; d: string }

export type Pass = TorquePass | AnglePass | SlackenPass | WaitPass
export interface TorquePass {
  kind: 'torque'
  /** `null`: no published value; nothing can be proven until one is settled. */
  torqueNm: number | null
  limits?: { minNm: number; maxNm: number; from: 'maker' | 'plan' }
  wrench?: string
  /** More than the fastener bears by all that can be computed, and taken all the same: by the supervisor who adds the plan. */
  asPrinted?: AsPrinted
}
/** The value that was taken (of another it says nothing), its page as a photo by its SHA-256 in hex, and why. */
export interface AsPrinted {
  torqueNm: number
  /** The highest it was taken with, N·m; not in plans of an older build. */
  maxNm?: number
  photo: string
  reason: string
}
export interface AnglePass {
  kind: 'angle'
  angleDeg: number
  limits?: { minDeg: number; maxDeg: number; from: 'maker' | 'plan' }
  wrench?: string
}
export interface SlackenPass {
  kind: 'slacken'
  /** Without it: fully. */
  angleDeg?: number
}
export interface WaitPass {
  kind: 'wait'
  minutes: number
}

/** What to do when a round over this joint is broken off, or an angle overshot. */
export interface Interruption {
  /** Only torque passes so far. */
  torqueOnly: 'restart_pass' | 'slacken_restart_joint'
  /** Any angle turned; absent where the joint has no angle pass. */
  afterAngle?: 'new_fasteners' | 'slacken_restart_joint'
  /** Turned further than asked by more than this: `afterAngle` applies. */
  overshootDeg?: number
}

/** A dimension or clearance taken with an instrument; one entry a place. */
export interface Measurement {
  id: string
  title: string
  unit: string
  /** Where it is taken: `cyl 1`, `main 2`; one entry when there is only one. */
  places: string[]
  min?: number
  max?: number
  instrument?: string
  /** What the number decides, by the maker's own table; see `shared/measure/leads-to.ts`. */
  leadsTo?: LeadsTo
  notes?: string[]
}

export type ClearanceOf = 'bearing' | 'end_play' | 'ring_gap'

export type LeadsTo =
  | { kind: 'clearance'; of: ClearanceOf }
  /** The gasket of the highest protrusion. */
  | { kind: 'gasket'; grades: { name: string; minMm: number; maxMm: number }[] }
  /** The shim pack under an injection pump: what is fitted, what a millimetre moves, what sizes there are. */
  | { kind: 'timing_shim'; fittedMm: number; perMm: number; sizesMm: number[] }

export interface Sealant {
  product: string
  /** From the first bead to the last fastener. */
  closeWithinMinutes: number
  cureMinutes: number
  /** Steps that cannot begin while it cures. */
  before: string[]
}

export interface Part {
  name: string
  quantity: number
  oneUse?: boolean
}

/** What must be so before the step can be signed. `count` and `look` are answered at the bench. */
export type Gate =
  | { id: string; kind: 'count'; text: string; expect: number }
  | { id: string; kind: 'look'; text: string }
  | { id: string; kind: 'photo'; text: string; places: string[] }
  | { id: string; kind: 'proven'; text: string; covers: Fasteners[] }
  | { id: string; kind: 'cured'; text: string; steps: string[] }
  | { id: string; kind: 'no_open_class_a'; text: string }

/** Lowest and highest acceptable reading, both inside; who set it. */
export type Band =
  | { kind: 'torque'; minNm: number; maxNm: number; from: BandSource }
  | { kind: 'angle'; minDeg: number; maxDeg: number; from: BandSource }
export type BandSource = 'maker' | 'plan' | 'shop'

/** `bands[i]` belongs to `passes[i]`; `null` where the pass takes no band or has no published value. */
export type AdoptedJoint = Joint & { bands: (Band | null)[] }
export type AdoptedStep = Omit<PlanStep, 'joints'> & { joints: AdoptedJoint[] }
export type AdoptedPlan = Omit<Plan, 'steps'> & { steps: AdoptedStep[] }

/** What a shop allows where neither the maker nor the plan gives limits. */
export interface Tolerances {
  /** Per cent of the torque asked, by joint class. */
  percent: Record<JointClass, number>
  /** Either side of the angle asked. */
  angleDeg: number
}
