/**
 * A full yard for looking at and for measuring: as many engines as asked for, each at another place of its build,
 * told in the same words as the demonstration's own eight. Invented like them, and the same at every start.
 */
import type { Story } from '../../seed/play'
import type { HoldKind } from '../../shared/job/kinds'
import type { Plan, PlanStep } from '../../shared/plan/types'

/** By the plans of `seed/plans`: what the engine is called and what it may drive. */
const KINDS: Readonly<Record<string, { model: string; drives: string[] }>> = {
  'orrath-q31': {
    model: 'Orrath Q31, 3-cylinder marine diesel',
    drives: ['work boat Grey Teal', 'pilot launch'],
  },
  'halvard-f52': { model: 'Halvard F52, 4-cylinder farm diesel', drives: ['tractor', 'wood chipper'] },
  'brendlow-615': { model: 'Brendlow 615 Twin', drives: ['motorcycle'] },
  'stavenmoor-g12': { model: 'Stavenmoor G12, air-cooled', drives: ['generating set', 'welder'] },
  'ottersby-s9': { model: 'Ottersby S9', drives: ['launch', 'winch'] },
  'grendale-p60': { model: 'Grendale P60', drives: ['irrigation pump'] },
  'tolvane-b4': { model: 'Tolvane B4', drives: ['baler', 'sweeper'] },
}
export const PLAN_IDS = Object.keys(KINDS)

const OWNERS = [
  'Sundrey Oyster Company',
  'Mrs Rook, Uphill Farm',
  'Harbour Cold Store',
  'Three Ditch Growers',
  'Wendry Contracting',
  'Fen Pilots',
  'Messrs Aldwinckle, Throssell, Pennyfather and Daughters (Estuary)',
  'Ferry Volunteers',
  'Mr Oake',
]
const AGREED = ['full rebuild', 'top end', 'reseal and rings', 'liners and bearings', 'head and valves']
const WAITS: [HoldKind, string][] = [
  ['part', 'head gasket, two-notch; promised by Northmere for Thursday'],
  ['approval', 'owner to say yes to a second oversize'],
  ['outside_work', 'crank at Ledder & Daughter for grinding'],
  ['tool', 'liner press, lent out'],
  ['question', 'which of two sump plugs belongs to this serial number'],
]
const DOERS = ['bram', 'suvi', 'kofi'] as const

/** The crib's biggest wrench went out for its check the day after. */
const LAST_DAY = -5
/** No step before this day has been worked at: the shop's book opens sixty working days back. */
const MOST_STEPS = 44

export const numberOf = (n: number): string => `F-${String(n + 1).padStart(3, '0')}`

export function crowd(count: number, plans: ReadonlyMap<string, Plan>): Story[] {
  return Array.from({ length: count }, (_, n) => engine(n, plans))
}

function engine(n: number, plans: ReadonlyMap<string, Plan>): Story {
  const planId = PLAN_IDS[n % PLAN_IDS.length] ?? ''
  const plan = plans.get(planId)
  const kind = KINDS[planId]
  if (!plan || !kind) throw new Error(`No plan ${planId}.`)
  const could = workable(plan)
  const done = (n * 37) % (could.length + 1)
  const doer = DOERS[n % DOERS.length] ?? 'bram'
  const second = doer === 'bram' ? 'suvi' : 'bram'
  const opening = {
    number: numberOf(n),
    engine: {
      model: kind.model,
      serial: `${planId.slice(0, 2).toUpperCase()}-${4100 + n * 7}`,
      drives: kind.drives[n % kind.drives.length] ?? '',
    },
    owner: OWNERS[n % OWNERS.length] ?? '',
    agreed: AGREED[n % AGREED.length] ?? '',
  }
  return {
    jobId: `full-${String(n + 1).padStart(3, '0')}`,
    planId,
    tell({ open, say, step, begin, hold, promise }) {
      const first = LAST_DAY - done
      if (n % 23 === 22) return say(-1, '15:00', 'hattie', { type: 'OpenJob', ...opening })
      open(first - 1, opening)
      if (n % 4 !== 3) promise(first - 1, '16:40', (n % 19) - 3, 'As agreed when it came in.')
      could.slice(0, done).forEach((one, at) => {
        // The last one of some still owes its second look.
        const owes = n % 5 === 4 && at === done - 1
        step(one.id, doer, first + at, '08:00', owes ? {} : { second })
      })
      const next = could[done]
      if (!next) return
      const joint = next.joints.find(
        (one) => one.class === 'A' && one.positions.length > 3 && one.passes[0]?.kind === 'torque',
      )
      if (n % 5 === 0) say(0, '08:10', doer, { type: 'ClaimStep', stepId: next.id })
      else if (n % 5 === 1 && joint)
        begin(next.id, doer, LAST_DAY, '08:00', {
          joint: joint.id,
          fullPasses: 0,
          through: (joint.order ?? joint.positions.map((position) => position.n))[2] ?? 1,
          at: '16:00',
        })
      else if (n % 5 === 2) {
        const [kind, what] = WAITS[n % WAITS.length] ?? WAITS[0] ?? ['part', '']
        hold(0, '08:20', 'dov', { kind, stepIds: [next.id], what, expected: [(n % 6) + 1, '12:00'] })
      }
    },
  }
}

/** As far as the work goes by itself: nobody has settled what nobody published. */
function workable(plan: Plan): PlanStep[] {
  const open = plan.steps.findIndex(({ joints }) =>
    joints.some(({ passes }) => passes.some((pass) => pass.kind === 'torque' && pass.torqueNm === null)),
  )
  return plan.steps.slice(0, Math.min(open === -1 ? plan.steps.length : open, MOST_STEPS))
}
