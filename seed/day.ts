/**
 * The rest of D0, from 09:45 to the end of the day, as moments a player sends when their time comes.
 *
 * What a moment sends is reckoned from the job as it stands then, because somebody may have joined in meanwhile; a
 * refusal that the day tells of is named, any other the player shows and goes on.
 */
import type { JobCommand } from '../shared/job/commands'
import type { Hold, Job } from '../shared/job/types'
import type { ShopClock } from './clock'

export interface Moment {
  /** When it happened at the bench. */
  at: string
  /** When the network took it along, if later. */
  sentAt?: string
  person: string
  jobId: string
  /** What to look at on the screen. */
  shows: string
  commands(job: Job): JobCommand[]
  refused?: string
}

const NOTHING = () => []

const holdOf = (job: Job, kind: Hold['kind'], stepId: string): string =>
  job.holds.find((hold) => hold.kind === kind && !hold.cleared && hold.stepIds.includes(stepId))?.id ?? ''

const clicks = (
  jointId: string,
  pass: number,
  wrenchId: string,
  value: number,
  positions: number[],
): JobCommand[] => [
  { type: 'EnterScale', jointId, pass, wrenchId, value },
  ...positions.map(
    (position): JobCommand => ({ type: 'TakeReading', jointId, pass, position, how: 'clicked', wrenchId }),
  ),
]

const said =
  (...commands: JobCommand[]) =>
  () =>
    commands

export function restOfTheDay(clock: ShopClock): Moment[] {
  return [
    {
      at: '09:50',
      person: 'suvi',
      jobId: 'e-105',
      shows:
        'Suvi is back from the phone: pass 3 starts again at nut 1; the two earlier clicks stay in the trail.',
      commands: said(
        { type: 'ClaimStep', stepId: 'B1' },
        { type: 'RestartRound', jointId: 'H-B1', position: 1, how: 'again' },
        ...clicks('H-B1', 3, 'TW-15', 90, [1, 4, 2, 5, 3, 6]),
        { type: 'SignStep', stepId: 'B1' },
      ),
    },
    {
      at: '10:05',
      person: 'bram',
      jobId: 'e-105',
      shows: 'Bram looks and gives the second signature.',
      commands: said({ type: 'SecondSignStep', stepId: 'B1' }),
    },
    {
      at: '10:15',
      person: 'odile',
      jobId: 'e-107',
      shows: 'Odile is back from the slip: her list shows what needs her.',
      commands: NOTHING,
    },
    {
      at: '10:30',
      person: 'jory',
      jobId: 'e-104',
      shows:
        'Jory takes out the eight cover bolts, looks at the threads and tightens new ones to 9 N·m with TW-13; the old readings stay in the record.',
      commands: said(
        ...[1, 2, 3, 4, 5, 6, 7, 8].map(
          (position): JobCommand => ({
            type: 'TakeReading',
            jointId: 'RC-M6',
            pass: 1,
            position,
            how: 'slackened',
          }),
        ),
        { type: 'PlaceFasteners', jointId: 'RC-M6', positions: [1, 2, 3, 4, 5, 6, 7, 8], condition: 'new' },
        { type: 'EnterScale', jointId: 'RC-M6', pass: 1, wrenchId: 'TW-13', value: 9 },
        { type: 'CountRound', jointId: 'RC-M6', pass: 1, wrenchId: 'TW-13', count: 8 },
        { type: 'SignStep', stepId: 'D1' },
      ),
    },
    {
      at: '10:40',
      person: 'hattie',
      jobId: 'e-108',
      shows:
        'Little Auk has an oil weep at the filter: Hattie opens the record of E-108 before she promises anything.',
      commands: said({
        type: 'AddNote',
        stepId: 'F4',
        text: 'The skipper of Little Auk reports an oil weep at the filter. From the record: adaptor bolts 4 of 4 at 22 with TW-13, both signatures. He changed the filter himself. He rings back.',
      }),
    },
    {
      at: '11:20',
      person: 'odile',
      jobId: 'e-101',
      shows: 'Odile decides the torque of the anode plug, with her name and her reason.',
      commands: said({
        type: 'SettleValue',
        jointId: 'G-F6',
        pass: 1,
        torqueNm: 12,
        minNm: 10.8,
        maxNm: 13.2,
        basis: { kind: 'word', competence: 'Odile Marrow, supervisor' },
        reason: 'Bronze, fibre washer, low pressure; re-check cold at K2.',
      }),
    },
    {
      at: '11:40',
      person: 'suvi',
      jobId: 'e-105',
      shows: 'Suvi tightens the first nut of the rocker stand.',
      commands: said({ type: 'ClaimStep', stepId: 'B2' }, ...clicks('H-B2', 1, 'TW-13', 22, [1])),
    },
    {
      at: '11:55',
      person: 'suvi',
      jobId: 'e-105',
      shows: 'Suvi goes: the handover note says where the step stands, with her line beside it.',
      commands: said({
        type: 'HandOverStep',
        stepId: 'B2',
        to: 'jory',
        note: 'Nut 2 and the clearances are left. On E-101 the exhaust manifold is interrupted in pass 2: class A, not yours.',
      }),
    },
    {
      at: '12:30',
      person: 'jory',
      jobId: 'e-101',
      shows:
        'Jory may fit the starter motor: the filter adaptor behind it is signed twice. TW-12 has failed its check, so the bench offers TW-15.',
      commands: said(
        { type: 'ClaimStep', stepId: 'G2' },
        { type: 'EnterScale', jointId: 'G-G2', pass: 1, wrenchId: 'TW-15', value: 45 },
        { type: 'CountRound', jointId: 'G-G2', pass: 1, wrenchId: 'TW-15', count: 2 },
        { type: 'SignStep', stepId: 'G2' },
      ),
    },
    {
      at: '13:00',
      person: 'bram',
      jobId: 'e-101',
      shows:
        'The network is down for seventy minutes. Bram goes on with F5 at 13:40; nothing of it arrives before 14:10.',
      commands: NOTHING,
    },
    {
      at: '13:40',
      sentAt: '14:10',
      person: 'bram',
      jobId: 'e-101',
      shows:
        'No network since 13:00: Bram goes on with F5, pass 2 again from nut 1; the entries wait to be sent, and Odile’s look is noted.',
      commands: said(
        { type: 'ClaimStep', stepId: 'F5' },
        { type: 'RestartRound', jointId: 'G-F5', position: 1, how: 'again' },
        ...clicks('G-F5', 2, 'TW-13', 22, [1, 2, 3, 4, 5, 6]),
        { type: 'SignStep', stepId: 'F5' },
        { type: 'NoteLook', stepId: 'F5', personId: 'odile' },
      ),
    },
    {
      at: '14:10',
      person: 'odile',
      jobId: 'e-101',
      shows:
        'The network is back: nothing is lost, nothing counts twice. Odile’s PIN turns her look into a signature.',
      commands: said({ type: 'SecondSignStep', stepId: 'F5' }),
    },
    {
      at: '14:20',
      person: 'hattie',
      jobId: 'e-106',
      shows: 'Three Ditch Growers agree: Hattie enters who, when, by which number, how much and what for.',
      commands: (job) => [
        {
          type: 'ClearHold',
          holdId: holdOf(job, 'approval', 'C1'),
          how: 'Ivo Brandreth of Three Ditch Growers by phone, number ending 118, 14:20: 4,900 for grinding, oversize washers and the rebuild.',
        },
        {
          type: 'PromiseDate',
          date: clock.date(21),
          reason: 'Approved today; six days at the machine shop.',
        },
      ],
    },
    {
      at: '15:00',
      person: 'kofi',
      jobId: 'e-103',
      shows: 'The insert has cured: three pulls on nut 4, all three recorded.',
      commands: said(
        ...[22.1, 21.9, 22].map(
          (value): JobCommand => ({
            type: 'TakeReading',
            jointId: 'RB-stud',
            pass: 1,
            position: 4,
            how: 'indicated',
            wrenchId: 'IW-01',
            value,
          }),
        ),
      ),
    },
    {
      at: '15:10',
      person: 'odile',
      jobId: 'e-103',
      shows: 'Odile accepts the insert at 22 N·m and clears the hold.',
      commands: (job) => [
        {
          type: 'ClearHold',
          holdId: holdOf(job, 'damage', 'C2'),
          how: 'Three pulls: 22.1, 21.9, 22.0. Insert accepted, torque stays at 22.',
        },
      ],
    },
    {
      at: '15:15',
      person: 'kofi',
      jobId: 'e-103',
      shows:
        'Kofi slackens nut 3 fully, looks at stud and thread, fits a new nut and tightens it; 26.4 stays in the trail.',
      commands: said(
        { type: 'TakeReading', jointId: 'RB-stud', pass: 1, position: 3, how: 'slackened' },
        { type: 'PlaceFasteners', jointId: 'RB-stud', positions: [3], condition: 'new' },
        ...clicks('RB-stud', 1, 'TW-13', 22, [3, 5, 6]),
        { type: 'SignStep', stepId: 'C2' },
      ),
    },
    {
      at: '15:30',
      person: 'odile',
      jobId: 'e-107',
      shows:
        'Odile asks for the release and is told every reason against it: the second signature of cap 3, and the question about the head bolts.',
      commands: said({ type: 'Release', kind: 'to_owner' }),
      refused: 'stands_against_release',
    },
    {
      at: '16:50',
      person: 'jory',
      jobId: 'e-105',
      shows: 'End of the day: every joint that was begun is final or marked where it was interrupted.',
      commands: said({ type: 'PutDownStep', stepId: 'B2', note: 'Nut 2 and clearances tomorrow.' }),
    },
  ]
}
