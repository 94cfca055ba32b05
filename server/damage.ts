/** What is known to be damaged while the shop is open: found by the check after the start, or met when it was read. */
import type { DamageNotice } from '../shared/protocol'

export interface Damage {
  now(): readonly DamageNotice[]
  /** Met by chance: stays until a check says otherwise. */
  add(notice: DamageNotice): void
  /** All that a check found. */
  checked(notices: readonly DamageNotice[]): void
  onChange(listener: (notices: readonly DamageNotice[]) => void): void
}

export function makeDamage(): Damage {
  let known: readonly DamageNotice[] = []
  const listeners: Parameters<Damage['onChange']>[0][] = []
  const become = (notices: readonly DamageNotice[]) => {
    known = notices
    for (const listener of listeners) listener(known)
  }
  return {
    now: () => known,
    add(notice) {
      if (!known.some(({ sentence }) => sentence === notice.sentence)) become([...known, notice])
    },
    checked(notices) {
      if (known.length > 0 || notices.length > 0) become(notices)
    },
    onChange: (listener) => void listeners.push(listener),
  }
}
