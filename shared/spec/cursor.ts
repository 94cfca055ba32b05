/** A walk over the tokens: each reader takes what is its own or leaves the cursor where it was. */
import { type DecimalSign, type Figure, readBy } from '../units'
import type { WordPart } from './languages'
import type { OtherThing, Unclear } from './refusals'
import type { Token } from './tokens'

/** Why a reading could not go on; thrown within this room only, and caught in `read.ts`. */
export class Stop {
  constructor(
    readonly why: { unclear: Unclear } | { other: OtherThing } | 'not_understood',
    readonly start: number,
    readonly end: number,
    /** What may be meant between start and end, each written so that it is clear. */
    readonly ways: readonly string[] = [],
  ) {}
}

/** No number of any unit is larger; what is, was never a torque, and could not be reckoned with. */
const MOST = 1e15

export class Cursor {
  at = 0
  constructor(
    readonly tokens: readonly Token[],
    readonly sign: DecimalSign,
  ) {
    this.staged = tokens.some((token) => token.t === 'stages')
  }

  /** `in three stages` stands there: a dash between torques parts them. */
  readonly staged: boolean

  peek(ahead = 0): Token | undefined {
    return this.tokens[this.at + ahead]
  }

  /** Takes the next token when it is this sign. */
  takes(...signs: string[]): string | undefined {
    const token = this.peek()
    if (token?.t !== 'sign' || !signs.includes(token.sign)) return undefined
    this.at += 1
    return token.sign
  }

  word(...parts: WordPart[]): WordPart | undefined {
    const token = this.peek()
    if (token?.t !== 'word' || !parts.includes(token.part)) return undefined
    this.at += 1
    return token.part
  }

  number(): (Figure & { alone: boolean; mixed?: boolean }) | undefined {
    const token = this.peek()
    if (token?.t !== 'number') return undefined
    const figure = readBy(token.number, this.sign)
    if (!figure) throw this.stop('not_understood')
    if (figure.value > MOST) throw this.stop({ other: 'quantity' })
    this.at += 1
    const { fraction } = token.number
    return { ...figure, alone: fraction === 'alone', ...(fraction === 'whole' ? { mixed: true } : {}) }
  }

  stop(why: Stop['why'], token = this.peek() ?? this.tokens.at(-1)): Stop {
    return new Stop(why, token?.start ?? 0, token?.end ?? 0)
  }

  /** Runs a reader and goes back where it gives nothing. */
  attempt<T>(reader: () => T | undefined): T | undefined {
    const before = this.at
    const found = reader()
    if (found === undefined) this.at = before
    return found
  }
}

export const isSign = (token: Token | undefined, sign: string) => token?.t === 'sign' && token.sign === sign
