/**
 * Every command tried by everybody, each in a job where the right person is allowed it.
 *
 * The expectations are written out: `yes`, or the code of the refusal. A new command without its line does not
 * compile.
 */
import { describe, expect, test } from 'vitest'
import type { JobCommand } from '../../../../shared/job/commands'
import { decide } from '../../../../shared/job/decide'
import { newJob } from '../../../../shared/job/evolve'
import { ABOUT_THE_PERSON } from '../../../../shared/job/refusals'
import { isRefusal } from '../../../../shared/log'
import type { Person } from '../../../../shared/shop/types'
import {
  type Act,
  adoptPlan,
  answer,
  arrived,
  bead,
  changeHold,
  claim,
  clear,
  closed,
  closeWarranty,
  count,
  type Given,
  handOver,
  hole,
  leaveOut,
  look,
  measure,
  note,
  open,
  photo,
  place,
  promise,
  putDown,
  raise,
  recheck,
  release,
  restart,
  scale,
  secondSign,
  settle,
  shows,
  sign,
  strike,
  strikeMeasured,
  takeOff,
  waive,
  warranty,
  withdraw,
} from '../../../shop/acts'
import { entry } from '../../../shop/ids'
import { NOTHING, people, person } from '../../../shop/people'
import { coverAdopted, hoodOn } from '../../../shop/plans/cover-engine'
import { contextOf, run } from '../../../shop/run'
import { testShop } from '../../../shop/shop'
import { all, buildDone, capsMeasured, housingSigned, liftDone, pumpSigned } from '../../../shop/stories'

const everybody: Record<string, Person> = {
  ...people,
  /** The owner of the shop, who signs for nothing at the bench. */
  ola: person('ola', { roles: ['owner'], mayDo: NOTHING, maySecondSign: NOTHING }),
}
const shop = { ...testShop, people: everybody, selfRecheck: { allowed: true, afterMinutes: 0 } } as const

/** ana does all; bo too, family by family; cy class C; dee supervises and looks; wim writes; ola owns. */
const COLUMNS = ['ana', 'bo', 'cy', 'dee', 'wim', 'ola', 'nobody'] as const

type Row = [before: Given[], asked: Act, expected: string]

const planned = (...happened: Given[]): Given[] => [
  open(),
  adoptPlan({ planId: 'floor-engine' }),
  ...happened,
]
const other = (...happened: Given[]): Given[] => [open(), adoptPlan(), ...happened]
const delivered = () => [buildDone(), release('to_fitting', { at: 900 }), liftDone()]
const ANYBODY = 'yes yes yes yes yes yes person_unknown'
const LEADS = 'role_needed role_needed role_needed yes role_needed yes person_unknown'
const OFFICE = 'role_needed role_needed role_needed yes yes yes person_unknown'
const HOLDER = 'yes not_your_step not_your_step yes not_your_step yes person_unknown'
const ENTRANT = 'yes not_yours_to_strike not_yours_to_strike yes not_yours_to_strike yes person_unknown'

const TABLE: Record<JobCommand['type'], Row[]> = {
  OpenJob: [[[], open(), OFFICE]],
  AdoptPlan: [[[open()], adoptPlan(), LEADS]],
  ClaimStep: [
    [planned(), claim('pump'), 'yes yes not_entitled not_entitled not_entitled not_entitled person_unknown'],
    [
      planned(),
      claim('housing'),
      'yes yes not_entitled not_entitled not_entitled not_entitled person_unknown',
    ],
    [planned(), claim('trial'), 'yes yes yes not_entitled not_entitled not_entitled person_unknown'],
  ],
  PutDownStep: [[planned(claim('pump')), putDown('pump'), HOLDER]],
  HandOverStep: [[planned(claim('trial')), handOver('trial', 'cy'), HOLDER]],
  EnterScale: [[planned(), scale('JP', 30), ANYBODY]],
  TakeReading: [[planned(), shows('JP', 1, 30), ANYBODY]],
  CountRound: [[planned(), count('JB', 8), ANYBODY]],
  RestartRound: [[planned(shows('JB', 1, 22)), restart('JB', 1), ANYBODY]],
  StrikeReading: [[planned(shows('JP', 1, 30)), strike(entry(1)), ENTRANT]],
  PlaceFasteners: [[planned(), place('JO', [1]), ANYBODY]],
  RecordHole: [[planned(), hole('JB', 4), ANYBODY]],
  TakeMeasurement: [[other(), measure('cap 1', 0.05), ANYBODY]],
  StrikeMeasurement: [[other(capsMeasured()), strikeMeasured(entry(1)), ENTRANT]],
  StartSealant: [[planned(), bead('seal'), ANYBODY]],
  CloseSealant: [[planned(bead('seal')), closed('seal'), ANYBODY]],
  AnswerGate: [[planned(), answer('rags', { stepId: 'closing', count: 3 }), ANYBODY]],
  TakeOff: [[[open(), coverAdopted, hoodOn()], takeOff('hood'), ANYBODY]],
  NoteLook: [[planned(), look('pump', 'dee'), ANYBODY]],
  AddNote: [[planned(), note('dry'), ANYBODY]],
  AddPhoto: [[planned(), photo('p'), ANYBODY]],
  ConfirmPhoto: [[planned(photo('p')), arrived('p'), ANYBODY]],
  SignStep: [
    [
      planned(claim('pump'), all('JP', [1, 2, 3], 30)),
      sign('pump'),
      'yes not_your_step not_your_step not_your_step not_your_step not_your_step person_unknown',
    ],
  ],
  SecondSignStep: [
    [
      planned(pumpSigned()),
      secondSign('pump'),
      'own_work yes not_entitled_to_second yes not_entitled_to_second not_entitled_to_second person_unknown',
    ],
  ],
  RecheckOwnWork: [
    [
      planned(housingSigned()),
      recheck('housing'),
      'yes recheck_not_allowed recheck_not_allowed recheck_not_allowed recheck_not_allowed recheck_not_allowed person_unknown',
    ],
    [
      planned(pumpSigned()),
      recheck('pump'),
      'recheck_not_allowed recheck_not_allowed recheck_not_allowed recheck_not_allowed recheck_not_allowed recheck_not_allowed person_unknown',
    ],
  ],
  Defer: [
    [
      planned(),
      leaveOut('JP', [3], 'lift'),
      'not_entitled_to_defer not_entitled_to_defer not_entitled_to_defer yes not_entitled_to_defer yes person_unknown',
    ],
    [
      planned(),
      leaveOut('JB', [7], 'lift'),
      'yes yes not_entitled_to_defer yes not_entitled_to_defer yes person_unknown',
    ],
    [planned(), leaveOut('JE', [1], 'lift'), 'yes yes yes yes not_entitled_to_defer yes person_unknown'],
  ],
  WithdrawDeferral: [[planned(leaveOut('JB', [7], 'lift', { by: 'ana' })), withdraw(entry(1)), ENTRANT]],
  SettleValue: [[other(), settle('JN', 12), LEADS]],
  Waive: [[planned(pumpSigned()), waive({ kind: 'second', stepId: 'pump', setId: 'step' }), LEADS]],
  Release: [
    [planned(buildDone()), release('to_fitting', { at: 900 }), LEADS],
    [planned(delivered()), release('to_owner', { at: 950 }), LEADS],
  ],
  OpenWarranty: [[planned(delivered(), release('to_owner', { at: 950 })), warranty(), OFFICE]],
  RaiseHold: [[planned(), raise(['pump']), ANYBODY]],
  ChangeHold: [[planned(raise(['pump'])), changeHold(entry(1), { what: 'two' }), ANYBODY]],
  ClearHold: [
    [planned(raise(['pump'])), clear(entry(1)), ANYBODY],
    [planned(raise(['pump'], { kind: 'approval' })), clear(entry(1)), OFFICE],
  ],
  CloseWarranty: [
    [planned(delivered(), release('to_owner', { at: 950 }), warranty()), closeWarranty(), LEADS],
  ],
  PromiseDate: [[planned(), promise('2030-02-01'), OFFICE]],
}

const rows = Object.entries(TABLE).flatMap(([type, some]) =>
  some.map((row, n) => [`${type} ${n + 1}`, ...row] as const),
)

describe('who may what', () => {
  test.each(rows)('%s', (_, before, asked, expected) => {
    const { job, count: next } = run(newJob('job-1'), before, testShop)
    const answers = COLUMNS.map((by) => {
      const outcome = decide(job, asked.command, contextOf({ ...asked, by }, next, shop))
      return isRefusal(outcome) ? outcome.refused : outcome.length > 0 ? 'yes' : 'nothing'
    })
    expect(answers.join(' ')).toBe(expected)
  })
  test('what is about the person is said as such', () => {
    for (const code of [
      'person_unknown',
      'role_needed',
      'not_entitled',
      'not_entitled_to_second',
      'not_entitled_to_defer',
    ])
      expect(ABOUT_THE_PERSON.has(code)).toBe(true)
    expect(ABOUT_THE_PERSON.has('positions_open')).toBe(false)
  })
})
