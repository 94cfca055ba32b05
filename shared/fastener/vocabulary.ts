/**
 * Words to values: the phrases that mean exactly one lubrication or one hole material, each with where it stands.
 *
 * A phrase is looked up whole. What is negated, joined, left over or not listed is a question with the entries it touches,
 * never the nearest one: “dry film lubricant” is the slipperiest class there is, and no pattern may hear “dry” in it.
 * Spelling alone is forgiven: case, dashes, commas, brackets, `aluminum`, `gray`. An entry's own id is a phrase too.
 */
import { VOCABULARY_WORDS } from './languages'
import type { HoleMaterialId, Lubrication } from './vocabulary-entries'

export type { HoleMaterialId, Lubrication } from './vocabulary-entries'

/** Phrases of one meaning, in English, and the class or standard that gives it. */
export interface Term<Id extends string> {
  id: Id
  phrases: readonly string[]
  /** Words that bring this entry up as a candidate, though they do not decide. */
  hints: readonly string[]
  source: string
}

export type Understood<Id extends string> = { id: Id } | { could: Id[] }

/** Terms as texts are held against them: whole phrases, and words that bring an entry up. */
export interface Vocabulary<Id extends string> {
  phrases: ReadonlyMap<string, Id>
  hints: ReadonlyMap<string, ReadonlySet<Id>>
  /** In the order entries are shown. */
  ids: readonly Id[]
}

/** Built when the first text is held against it, once: most pages that load the rules read no text. */
function whenAsked<V>(build: () => V): () => V {
  let built: V | undefined
  return () => {
    built ??= build()
    return built
  }
}

/**
 * The terms with the words of every other language. A phrase of theirs hints at its entry by each of its longer words too.
 */
export function vocabularyOf<Id extends Lubrication | HoleMaterialId>(
  terms: readonly Term<Id>[],
  room: 'lubrication' | 'material',
): Vocabulary<Id> {
  const phrases = new Map<string, Id>()
  const hints = new Map<string, Set<Id>>()
  const hint = (word: string, id: Id) => hints.set(word, (hints.get(word) ?? new Set()).add(id))
  for (const { id, phrases: own, hints: hinting } of terms) {
    for (const phrase of [id, ...own]) phrases.set(plainPhrase(phrase), id)
    for (const word of hinting) hint(plainPhrase(word), id)
  }
  for (const words of VOCABULARY_WORDS)
    for (const { id } of terms) {
      const entry = (words[room] as Partial<Record<Id, string>>)[id] ?? ''
      for (const phrase of entry.split('|').filter(Boolean).map(plainPhrase)) {
        phrases.set(phrase, id)
        for (const word of phrase.split(' ')) if (word.length >= LEAST_HINT) hint(word, id)
      }
      for (const word of (words.hints[id] ?? '').split(' ').filter(Boolean)) hint(plainPhrase(word), id)
    }
  return { phrases, hints, ids: terms.map(({ id }) => id) }
}

/** Shorter words of a phrase are articles and prepositions. */
const LEAST_HINT = 4
/** No hint has more words. */
const MOST_WORDS = 2

/** The one entry that is meant, or those that could be; none where nothing in the text points anywhere. */
export function understand<Id extends string>(text: string, vocabulary: Vocabulary<Id>): Understood<Id> {
  const phrase = plainPhrase(text)
  const id = vocabulary.phrases.get(phrase)
  if (id !== undefined) return { id }
  const words = phrase.split(/[ /+&;]/)
  const hintedIds = new Set<Id>()
  for (let from = 0; from < words.length; from += 1)
    for (let to = from + 1; to <= Math.min(words.length, from + MOST_WORDS); to += 1)
      for (const hintedId of vocabulary.hints.get(words.slice(from, to).join(' ')) ?? [])
        hintedIds.add(hintedId)
  return { could: vocabulary.ids.filter((hintedId) => hintedIds.has(hintedId)) }
}

/** As a phrase is compared: letters without accents, digits and joining signs; a decimal mark between digits stays. */
export function plainPhrase(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[łøæœß]/g, (letter) => PLAIN_LETTERS[letter] ?? letter)
    .replace(/[’`´]/g, "'")
    .replace(/aluminum/g, 'aluminium')
    .replace(/\bgray\b/g, 'grey')
    .replace(/(\d)[.,](?=\d)/g, '$1·')
    .replace(/[\s_,.()[\]\u2010-\u2015-]+/g, ' ')
    .replace(/·/g, '.')
    .trim()
}

/** Letters that are no plain letter with an accent. */
const PLAIN_LETTERS: Record<string, string> = { ł: 'l', ø: 'o', æ: 'ae', œ: 'oe', ß: 'ss' }

const VDI_A5 = 'VDI 2230 Part 1, table A5, friction classes'

/** States of thread and head. A phrase stands here only where it names a state of the table and nothing beside it. */
export const LUBRICATION_TERMS: readonly Term<Lubrication>[] = [
  {
    id: 'dry',
    phrases: [
      'clean and dry',
      'dry and clean',
      'clean dry',
      'dry threads',
      'threads dry',
      'assembled dry',
      'bone dry',
    ],
    hints: 'dry clean bare degreased unlubricated none no not without delivered received lubricant'.split(
      ' ',
    ),
    source: VDI_A5,
  },
  {
    id: 'oil',
    phrases: [
      'oiled',
      'apply engine oil to threads',
      'apply clean engine oil to threads',
      'apply clean engine oil to threads and under head',
      'apply engine oil to threads and under head',
      'engine oil',
      'motor oil',
      'clean engine oil',
      'oiled with engine oil',
      'lubricated with engine oil',
      'motor oil on thread and head',
      'lubricated with motor oil',
      'dipped in engine oil',
      'dip in engine oil',
      'machine oil',
      'gear oil',
      'oil wetted',
      'oil on thread and head',
      'oil on thread and washer face',
      'oil threads and underside of head',
      'oil on threads and under head',
      'threads and head oiled',
      'oiled threads and head',
    ],
    hints: 'oil oiled lubricated lubricate lube lubricant'.split(' '),
    source: VDI_A5,
  },
  {
    id: 'grease',
    phrases: [
      'greased',
      'lithium grease',
      'multipurpose grease',
      'multi-purpose grease',
      'general purpose grease',
    ],
    hints: 'grease greased lubricated lubricate lube lubricant'.split(' '),
    source: VDI_A5,
  },
  {
    id: 'paste',
    phrases: [
      'MoS2',
      'MoS2 paste',
      'moly paste',
      'molybdenum paste',
      'molybdenum disulphide',
      'molybdenum disulfide',
      'molybdenum disulphide paste',
      'molybdenum disulfide paste',
      'graphite paste',
      'PTFE paste',
      'dry film lubricant',
      'dry film lubricant (MoS2)',
      'MoS2 dry film lubricant',
      'solid film lubricant',
    ],
    hints: 'paste moly molybdenum mos2 graphite ptfe film'.split(' '),
    source: `${VDI_A5}: solid lubricants in varnishes, as top coats or in pastes`,
  },
  {
    id: 'anti_seize',
    phrases: [
      'antiseize',
      'anti-seize compound',
      'anti-seize, thin',
      'copper anti-seize',
      'copper based anti-seize',
      'nickel anti-seize',
      'aluminium anti-seize',
      'copper grease',
      'copper paste',
      'ceramic grease',
      'ceramic grease, thin',
    ],
    hints: ['anti seize', 'antiseize', 'never seize', 'copper', 'ceramic', 'nickel'],
    source: `${VDI_A5}: greases; metal or ceramic in them is common practice, no source`,
  },
  {
    id: 'threadlocker',
    phrases: [
      'thread locker',
      'thread-locking compound',
      'liquid threadlocker',
      'threadlocker, low',
      'threadlocker, medium',
      'threadlocker, high',
      'threadlocker, medium strength',
      'threadlocker, high strength',
      'medium strength threadlocker',
      'medium strength thread locking compound',
      'high strength threadlocker',
    ],
    hints: [...'threadlocker threadlock locker locking anaerobic'.split(' '), 'thread lock'],
    source: `${VDI_A5}: adhesive, in the class of bare and plated steel`,
  },
  {
    id: 'zinc_plated',
    phrases: ['electro zinc plated'],
    hints: 'plated zinc galvanised galvanized electroplated coated cadmium'.split(' '),
    source: `${VDI_A5}: galvanic zinc without a lubricant`,
  },
  {
    id: 'wax',
    phrases: ['waxed', 'wax coated', 'wax coated as delivered', 'wax coated thread', 'wax coated threads'],
    hints: 'wax waxed coated'.split(' '),
    source: `${VDI_A5}: liquefied wax, wax dispersions`,
  },
]

export const lubricationVocabulary = whenAsked(() => vocabularyOf(LUBRICATION_TERMS, 'lubrication'))

/** Hole materials by the standards' own designations and the trade's names for just that one. */
export const HOLE_MATERIAL_TERMS: readonly Term<HoleMaterialId>[] = [
  {
    id: 'cast_iron',
    phrases: ['grey cast iron', 'grey iron', 'EN-GJL-250', 'GJL-250', 'GG25', 'GG-25'],
    hints: 'iron gjl gg cast grey'.split(' '),
    source: 'EN 1561; GG25 is its name in DIN 1691 (memory)',
  },
  {
    id: 'ductile_iron',
    phrases: [
      'ductile cast iron',
      'nodular iron',
      'nodular cast iron',
      'spheroidal graphite iron',
      'SG iron',
      'EN-GJS-400',
      'GJS-400',
      'GGG40',
      'GGG-40',
    ],
    hints: 'iron ductile nodular sg gjs ggg cast'.split(' '),
    source: 'EN 1563; GGG40 is its name in DIN 1693 (memory)',
  },
  {
    id: 'cast_aluminium',
    phrases: [
      'aluminium, cast',
      'die cast aluminium',
      'pressure die cast aluminium',
      'cast aluminium, pressure die cast',
      'AlSi9Cu3',
      'AlSi9Cu3 pressure die cast',
      'AlSi9Cu3 die casting',
      'EN AC-46000',
    ],
    hints: 'aluminium alloy cast casting die light-alloy alsi9cu3'.split(' '),
    source: 'EN 1706 (memory)',
  },
  {
    id: 'cast_aluminium_gravity',
    phrases: [
      'sand cast aluminium',
      'gravity cast aluminium',
      'gravity die cast aluminium',
      'cast aluminium, sand cast',
      'cast aluminium, gravity cast',
      'AlSi9Cu3 sand cast',
      'AlSi9Cu3 gravity cast',
    ],
    hints: 'aluminium alloy cast casting sand gravity alsi9cu3'.split(' '),
    source: 'EN 1706 (memory)',
  },
  {
    id: 'cast_aluminium_heat_treated',
    phrases: [
      'heat treated cast aluminium',
      'cast aluminium, aged',
      'AlSi7Mg',
      'AlSi7Mg T6',
      'EN AC-42000 T6',
    ],
    hints: 'aluminium alloy cast casting aged t6 treated alsi7mg'.split(' '),
    source: 'EN 1706 (memory)',
  },
  {
    id: 'wrought_aluminium',
    phrases: ['AlMgSi1', 'EN AW-6082 T6', '6082-T6'],
    hints: 'aluminium alloy wrought forged billet plate 6082'.split(' '),
    source: 'EN 573-3, EN 755-2 (memory)',
  },
  {
    id: 'wrought_aluminium_strong',
    phrases: ['AlZnMgCu1.5', 'EN AW-7075 T6', '7075-T6'],
    hints: 'aluminium alloy wrought forged billet plate 7075'.split(' '),
    source: 'EN 573-3, EN 755-2 (memory)',
  },
  {
    id: 'steel',
    phrases: ['mild steel', 'structural steel', 'mild structural steel'],
    hints: ['steel'],
    source: 'EN 10025-2, the lowest of its grades (memory)',
  },
  {
    id: 'steel_500',
    phrases: ['steel, Rm 500', 'machine steel, Rm 500'],
    hints: ['steel'],
    source: 'its name',
  },
  {
    id: 'steel_700',
    phrases: ['steel, Rm 700', 'quenched and tempered steel, Rm 700'],
    hints: ['steel'],
    source: 'its name',
  },
  {
    id: 'bronze',
    phrases: ['cast bronze', 'tin bronze', 'cast tin bronze'],
    hints: ['bronze'],
    source: 'EN 1982 (memory)',
  },
]

export const holeMaterialVocabulary = whenAsked(() => vocabularyOf(HOLE_MATERIAL_TERMS, 'material'))
