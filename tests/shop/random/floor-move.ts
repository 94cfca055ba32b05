/** One move of somebody on the floor, as it is drawn: numbers that are read against the job as it stands. */
export const KINDS = [
  ...Array<'get on'>(12).fill('get on'),
  ...Array<'one tap'>(3).fill('one tap'),
  ...Array<'finish all'>(4).fill('finish all'),
  ...Array<'wild word'>(3).fill('wild word'),
  ...(['claim', 'put down', 'hand over', 'count', 'restart', 'fasteners', 'slacken', 'sealant'] as const),
  ...(['gate', 'look', 'note', 'photo', 'bytes', 'recheck', 'defer', 'withdraw', 'settle', 'waive'] as const),
  ...(['release', 'release', 'warranty', 'hold', 'change hold', 'clear hold', 'promise', 'second'] as const),
  ...(['hole', 'take off', 'close warranty'] as const),
  ...(['put right', 'strike', 'wild', 'wild reading', 'wait'] as const),
] as const
export type Kind = (typeof KINDS)[number]

export interface FloorMove {
  who: string
  kind: Kind
  a: number
  b: number
  value: number
  minutes: number
  grant: boolean
}
