import type { Language } from './language'

/** Czech. */
export const czech: Language = {
  words: {
    next: 'pak|poté|potom|následně|a pak|a poté|a potom|pak o|poté o|potom o|následně o|dále o|a dále o|a potom o|a pak o|pak dotáhnout o|poté dotáhnout o',
    plus: 'plus',
    or: 'nebo|anebo|či',
    to: 'až',
    between: 'od|mezi',
    filler:
      'utáhnout|utáhnout na|utáhnout momentem|utáhněte|utáhněte na|utahovat|utahovat momentem|utahovací moment|utahovacím momentem|' +
      'utahovací momenty|moment utažení|moment|momentem|krouticí moment|na moment|dotáhnout|dotáhnout na|dotáhnout o|dotáhnout momentem|dotáhnout o úhel|' +
      'dotáhněte|otočit|otočit o|pootočit|pootočit o|o úhel|úhel|úhlem|o dalších|dalších|ještě o|ještě|hodnota|utažení|předutáhnout|znovu|znovu utáhnout na|a o',
    min: 'minimálně|nejméně|alespoň',
    max: 'nejvýše|nejvíce|maximálně',
    limit: 'nepřekročit|nepřekračovat|ne více než',
    about: 'přibližně|asi|cca|cca.',
    slacken: 'povolit|povolit o|uvolnit|uvolnit o|odšroubovat',
    fully: 'úplně|zcela',
    thing:
      'šroub|šrouby|šroubů|šroubu|matice|matici|matic|svorník|svorníky|svorníků|ks|ks.|kus|kusů|všechny|každý|zátka|zátku|víko|válec|válce|svíčka',
    reference: 'strana|straně|obr|obr.|obrázek|pozice|číslo|č.|tabulka|řádek|bod|viz|třída|klíč|kapitola',
    condition:
      'suchý|suché|suchá|za sucha|na sucho|naolejovaný|naolejované|olejem|nový|nové|nových|použité|použitý|staré|starý|teplý|teplé|horký|horké|studený|' +
      'studené|za studena|za tepla|ocel|hliník|litina|mosaz|bez|dlouhý|dlouhé|krátký|krátké',
    change:
      'pokud|jestliže|kromě|vyjma|jinak|dříve|místo|respektive|zvýšit|snížit|příliš|chybně|zrušeno|neplatí',
    later: 'hodin|hodinách|později|záběhu',
    kind:
      'třecí moment|moment tření|moment odporu|ot/min|výkon|rozsah|předpětí|moment motoru|točivý moment motoru|moment povolení|povolovací moment|' +
      'valivý odpor|moment otáčení|odtrhovací moment',
    check: 'zkontrolovat|kontrola|kontrolovat|kontrolní moment|překontrolovat|kontrolní',
    not: 'ne|není|nikdy|žádný|žádné|neutahovat',
    harmless: 'nepřetahovat|nemazat|nepoužívat opakovaně|nepoužívat znovu|neolejovat',
    seat: 'rukou|ručně|utáhnout rukou|na doraz|do dosednutí',
  },
  degrees: 'stupňů|stupně',
  turn: 'otáčka|otáčky|otáčku|otáček',
  amounts: {
    čtvrt: 1 / 4,
    'o čtvrt': 1 / 4,
    čtvrtinu: 1 / 4,
    půl: 1 / 2,
    'o půl': 1 / 2,
    polovinu: 1 / 2,
    třetinu: 1 / 3,
    'o třetinu': 1 / 3,
    jednu: 1,
    'o jednu': 1,
    dvě: 2,
  },
  stage: 'krok|fáze|etapa|stupeň',
  act: 'utažení|dotažení',
  suffixBesideStage: '\\.',
  ordinals: ['první|nejprve|nejdříve', 'druhý|druhá|druhé', 'třetí', 'čtvrtý|čtvrtá|čtvrté'],
  counts: ['jeden|jednom', 'dva|dvou', 'tři|třech', 'čtyři|čtyřech', 'pět|pěti'],
  unnumbered: 'nakonec|na závěr',
  staged: { before: 've|v', stages: 'krocích|fázích|etapách|stupních' },
}
