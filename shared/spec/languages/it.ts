import type { Language } from './language'

/** Italian. */
export const italian: Language = {
  words: {
    next: 'poi|e poi|quindi|successivamente|in seguito|dopodiché',
    plus: 'più',
    and: 'e|ed',
    or: 'oppure|ovvero',
    a: 'a|ad',
    between: 'tra|fra|da',
    filler:
      'serrare|serrare a|serraggio|serraggio a|serraggio angolare|coppia|coppia di|coppia di serraggio|coppie di serraggio|stringere|' +
      'stringere a|preserraggio|preserrare a|con|di|un|uno|una|un altro|ruotare di|ulteriore|ulteriori|ancora|angolo|angolo di|valore|alla coppia di|chiudere a|riserrare a|riserrare|nuovamente|di nuovo|a croce',
    min: 'min.|minimo|almeno|non meno di',
    max: 'massimo|mass|mass.|al massimo|fino a',
    limit: 'non più di|non superare|non oltre',
    about: 'circa',
    slacken: 'allentare|allentare di|svitare|svitare di|sbloccare',
    fully: 'completamente|del tutto|totalmente',
    thing:
      'vite|viti|dado|dadi|bullone|bulloni|prigioniero|prigionieri|tappo|tappi|pz|pz.|pezzi|ciascuno|ciascuna|ogni|tutti|tutte|candela|candele',
    reference:
      'pagina|pagine|pag.|figura|fig.|posizione|tabella|riga|vedi|vedere|nota|punto|classe|chiave|rif.|particolare|numero',
    condition:
      'a secco|secco|secca|oliato|oliata|oliate|oliati|lubrificato|lubrificata|ingrassato|nuovo|nuovi|nuova|nuove|usato|usati|usata|usate|' +
      'vecchio|vecchi|vecchie|caldo|freddo|a caldo|a freddo|acciaio|alluminio|ghisa|ottone|senza|lunga|lunghe|corta|corte',
    change:
      'se|salvo|tranne|altrimenti|prima era|invece|rispettivamente|aumentare|ridurre|eccetto|troppo|errato',
    later: 'dopo|ore|rodaggio|più tardi',
    kind:
      'rotolamento|coppia di rotolamento|coppia di attrito|coppia residua|distacco|coppia di distacco|coppia di spunto|coppia motrice|' +
      'coppia massima del motore|giri/min|potenza|campo|rottura|precarico|coppia di rotazione|coppia di trascinamento|coppia di allentamento',
    check: 'controllare|controllo|verificare|verifica|coppia di controllo',
    not: 'non|no|mai|nessun|nessuna|né',
    harmless:
      'non serrare eccessivamente|non serrare troppo|non lubrificare|non oliare|non riutilizzare|non ingrassare',
    seat: 'a mano|serrare a mano|a contatto|fino a contatto|in battuta',
  },
  degrees: 'grado|gradi',
  turn: 'giro|giri|di giro',
  amounts: {
    'un quarto di': 1 / 4,
    'quarto di': 1 / 4,
    mezzo: 1 / 2,
    'un mezzo': 1 / 2,
    'un terzo di': 1 / 3,
    'terzo di': 1 / 3,
    'due terzi di': 2 / 3,
    'tre quarti di': 3 / 4,
    'un sesto di': 1 / 6,
    un: 1,
    due: 2,
  },
  stage: 'fase|passo|passata|stadio|passaggio',
  act: 'serraggio',
  before: 'preserraggio|preserrare a',
  dated: 'dal|da|fino al|a partire dal|sino al',
  suffixBesideStage: '[ªº°a]|o',
  ordinals: ['primo|prima', 'secondo|seconda', 'terzo|terza', 'quarta|quarto serraggio'],
  times: { 'due volte': 2, 'tre volte': 3 },
  counts: ['uno', 'due', 'tre', 'quattro', 'cinque', 'sei'],
  unnumbered: 'infine|serraggio finale|finale',
  staged: { before: 'in', stages: 'fasi|passate|passaggi|stadi' },
}
