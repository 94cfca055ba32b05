/** Every language's table; a word of several languages has the part the first of them gives it. */

import { czech } from './cs'
import { german } from './de'
import { english } from './en'
import { spanish } from './es'
import { french } from './fr'
import { italian } from './it'
import type { Language } from './language'
import { dutch } from './nl'
import { polish } from './pl'
import { portuguese } from './pt'
import { russian } from './ru'
import { swedish } from './sv'

export type { Language, NotePart, WordPart } from './language'
export const LANGUAGES: readonly Language[] = [
  english,
  german,
  french,
  spanish,
  italian,
  portuguese,
  dutch,
  swedish,
  polish,
  czech,
  russian,
]

/** The alternatives of an entry. */
export const alternatives = (entry: string): string[] => entry.split('|').filter(Boolean)
