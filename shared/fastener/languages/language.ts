/**
 * What a language's manuals call a lubrication or a hole's material: a table, read by `vocabulary.ts`; no code.
 *
 * A bar parts the phrases of an entry. A phrase stands here only where it means that entry and nothing beside it; `hints`
 * are words that bring an entry up as a candidate without deciding it. All from memory, no source; accents may be missing
 * in a text. No negated phrase stands here: what is not there is asked about.
 */
import type { HoleMaterialId, Lubrication } from '../vocabulary-entries'

export interface VocabularyWords {
  lubrication: Partial<Record<Lubrication, string>>
  material: Partial<Record<HoleMaterialId, string>>
  hints: Partial<Record<Lubrication | HoleMaterialId, string>>
  /** What stands before a bolt’s class and changes nothing of it. */
  grade?: string
  /** What a stainless steel is called, before or behind its class. */
  stainless?: string
}
