/** Words to values: whole phrases only, and every doubt a question. */
import { describe, expect, test } from 'vitest'
import {
  fastenerSentence,
  HOLE_MATERIAL_TERMS,
  holeMaterial,
  LUBRICATION_TERMS,
  readLubrication,
} from '../../../shared/fastener'
import { VOCABULARY_WORDS } from '../../../shared/fastener/languages'
import { plainPhrase } from '../../../shared/fastener/vocabulary'
import { isRefusal } from '../../../shared/log'
import { figures } from '../../shop/words'

const lubricationOf = (text: string) => {
  const found = readLubrication(text)
  return isRefusal(found) ? found.refused : found
}
const materialOf = (text: string) => {
  const found = holeMaterial(text)
  return isRefusal(found) ? found.refused : found.id
}
const ROOMS = [
  { what: 'lubrication', room: 'lubrication', terms: LUBRICATION_TERMS, read: lubricationOf },
  { what: 'hole material', room: 'material', terms: HOLE_MATERIAL_TERMS, read: materialOf },
] as const

describe.each(ROOMS)('$what', ({ what, room, terms, read }) => {
  const english = terms.flatMap(({ id, phrases }) => [id, ...phrases].map((phrase) => [phrase, id] as const))
  const foreign = VOCABULARY_WORDS.flatMap((words) =>
    Object.entries(words[room]).flatMap(([id, some]) =>
      some.split('|').map((phrase) => [phrase, id] as readonly [string, string]),
    ),
  )
  const phrases = [...english, ...foreign]
  const question = what === 'lubrication' ? /^lubrication_un/ : /^material_un/

  test.each(phrases)('[FT7] [FT11] “%s” is %s, however it is spelt', (phrase, id) => {
    for (const text of [phrase, phrase.toUpperCase(), ` ${phrase.replaceAll(' ', '  ')}. `])
      expect(read(text), text).toBe(id)
  })
  test('[FT7] [FT11] no phrase has two meanings, and each has its source', () => {
    const meant = new Map<string, string>()
    for (const [phrase, id] of phrases) {
      const plain = plainPhrase(phrase)
      expect(meant.get(plain) ?? id, phrase).toBe(id)
      meant.set(plain, id)
    }
    const once = english.map(([phrase]) => plainPhrase(phrase))
    expect(once).toEqual([...new Set(once)])
    for (const { source } of terms) expect(source.length).toBeGreaterThan(5)
  })
  test.each(
    'no|not|non-|without|never|un|free of|do not use|except|nicht|kein|ohne|ne pas|sans|sin|non|senza|ej|utan|nie|bez|niet|zonder|não|sem'.split(
      '|',
    ),
  )('[FT7] [FT11] negated by “%s” it is asked', (negation) => {
    for (const [phrase] of phrases) expect(read(`${negation} ${phrase}`), phrase).toMatch(question)
  })
  test('[FT7] [FT11] two joined are asked, whatever joins them', () => {
    const joints = [
      ' or ',
      ' and ',
      '/',
      ', ',
      ' + ',
      ' then ',
      ' (',
      ' with ',
      ' & ',
      ' oder ',
      ' e ',
      ' lub ',
    ]
    const taken = phrases.flatMap(([one, id], i) =>
      phrases.flatMap(([other, second], k) => {
        const text = `${one}${joints[(i + k) % joints.length]}${other}`
        return id !== second && !question.test(read(text)) ? [`${text}: ${read(text)}`] : []
      }),
    )
    expect(taken).toEqual([])
  })
  test.each(['-free', 'less', ' if worn', ', new only', ' 50 %', '?', ' see page 4', ' (cold)'])(
    '[FT7] [FT11] with “%s” left over it is asked',
    (rest) => {
      for (const [phrase] of phrases) expect(read(`${phrase}${rest}`), phrase).toMatch(question)
    },
  )
})

describe('what was taken wrongly', () => {
  test.each([
    'no oil',
    'oil-free',
    'greaseless',
    'dry or oiled',
    'not dry',
    'clean',
    'degreased',
    'lightly oiled',
    'oiled, not greased',
    'dry lubricant',
    'plating',
    'unlubricated',
  ])('[FT7] “%s” is a question with what it could be', (text) => {
    const found = readLubrication(text)
    expect(isRefusal(found)).toBe(true)
    if (!isRefusal(found)) return
    expect(found.refused).toMatch(/^lubrication_un/)
    expect(fastenerSentence(found, figures)).toMatch(/Choose /)
  })
  test('[FT7] dry film lubricant is the slipperiest class, never dry', () => {
    expect(lubricationOf('dry film lubricant (MoS2)')).toBe('paste')
  })
  test.each([
    'cast iron or aluminium',
    'not cast iron',
    'wrought iron',
    'iron',
    'aluminium',
    'stainless steel',
  ])('[FT11] “%s” is a question', (text) => {
    expect(materialOf(text)).toMatch(/^material_un/)
  })
  test('[FT7] a question names what its words touch', () => {
    expect(readLubrication('dry or oiled')).toMatchObject({ data: { could: ['dry', 'oil'] } })
    expect(holeMaterial('cast iron or bronze')).toMatchObject({
      refused: 'material_unclear',
      data: { could: expect.arrayContaining(['cast_iron', 'bronze']) },
    })
  })
})
