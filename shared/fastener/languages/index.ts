/** Every language's words of lubrication and material beside the English ones. */
import { czech } from './cs'
import { german } from './de'
import { spanish } from './es'
import { french } from './fr'
import { italian } from './it'
import type { VocabularyWords } from './language'
import { dutch } from './nl'
import { polish } from './pl'
import { portuguese } from './pt'
import { swedish } from './sv'

export const VOCABULARY_WORDS: readonly VocabularyWords[] = [
  german,
  french,
  spanish,
  italian,
  swedish,
  polish,
  dutch,
  czech,
  portuguese,
]
