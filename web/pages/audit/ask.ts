/** What the lists ask the page to open: one sheet at a time, handed down so that no list carries its own. */
import { createContext, useContext } from 'solid-js'
import type { ReleaseKind } from '../../../shared/job/release'
import type { Waived } from '../../../shared/job/types'

export type Ask =
  | { do: 'look'; stepId: string; setId: string }
  | { do: 'waive'; title: string; what: readonly Waived[] }
  | { do: 'release'; kind: ReleaseKind }
  | { do: 'warranty'; number: string }
  | { do: 'finding'; complaint: string }

export interface Asking {
  ask(what: Ask): void
}

export const AskContext = createContext<Asking>()

export function useAsk(): Asking {
  const asking = useContext(AskContext)
  if (!asking) throw new Error('useAsk is for parts inside an AskContext.Provider')
  return asking
}
