/**
 * What a message's fields are called on the screens: the labels of forms, and the server's sentence about what was typed there.
 *
 * A program that sends messages reads `path`; a person never sees one.
 */
export const FIELD_WORDS = {
  A: 'Class A',
  B: 'Class B',
  C: 'Class C',
  adapterMm: 'Length of the adapter',
  afterMinutes: 'After how many minutes',
  agreed: 'Agreed work',
  angleDeg: 'Angle',
  away: 'Where it is',
  caption: 'Caption',
  code: 'Code from the server’s window',
  competence: 'Whose word it is',
  complaint: 'Complaint',
  count: 'Count',
  cureMinutes: 'Minutes to cure',
  cycle: 'Which tightening it is',
  date: 'The day',
  depthMm: 'Depth of the hole',
  doneBy: 'Who did it',
  drives: 'What it drives',
  dueAt: 'Next check due',
  edition: 'Edition',
  expectedAt: 'Expected on',
  families: 'Engine families',
  finding: 'Finding',
  how: 'What was done',
  increment: 'Step of the scale',
  initials: 'Initials',
  inputs: 'What it was computed from',
  instrument: 'Instrument',
  lastCheckedAt: 'Last checked',
  lengthMm: 'Length',
  max: 'Highest on its scale',
  maxNm: 'Highest, N·m',
  method: 'Method',
  min: 'Lowest on its scale',
  minNm: 'Lowest, N·m',
  minutes: 'Minutes',
  model: 'Engine model',
  name: 'Name',
  note: 'Note',
  number: 'Job number',
  outerThread: 'Outer thread of the insert',
  owner: 'Owner',
  page: 'Page',
  pass: 'Pass',
  pin: 'PIN',
  place: 'Place',
  position: 'Position',
  positions: 'Positions',
  reason: 'Reason',
  serial: 'Serial number',
  setDownMm: 'How far the insert is set down',
  shopName: 'Name of the shop',
  stepIds: 'Steps',
  text: 'Note',
  threadMm: 'Depth of the thread',
  title: 'Title',
  torqueNm: 'Torque, N·m',
  unit: 'Unit',
  value: 'Number entered',
  what: 'What it is',
  wrenchMm: 'Length of the wrench',
} as const satisfies Record<string, string>

/** By the last key of a path that has a name; nothing where no key has one. */
export const fieldWords = (keys: readonly PropertyKey[]): string | undefined => {
  const key = keys.findLast((key) => typeof key === 'string')
  return typeof key === 'string' && Object.hasOwn(FIELD_WORDS, key)
    ? FIELD_WORDS[key as keyof typeof FIELD_WORDS]
    : undefined
}
