import type { Language } from './language'

/** Polish. */
export const polish: Language = {
  words: {
    next: 'następnie|potem|a następnie|i następnie|po czym|następnie o|potem o|a następnie o|następnie dokręcić o',
    plus: 'plus',
    and: 'i|oraz',
    or: 'lub|albo',
    to: 'do',
    between: 'od|między|pomiędzy',
    filler:
      'dokręcić|dokręcić do|dokręcić z|dokręcić o|dokręcić o kąt|dokręcić kątem|dokręcić momentem|dokręcać|dokręcać momentem|dokręcanie|' +
      'dokręć|dokręć momentem|dociągnąć|dociągnąć momentem|dociągnąć o|dociągnąć o kąt|obrócić|obrócić o|obrócić o kąt|moment|momentem|' +
      'moment dokręcania|moment dokręcenia|momentem dokręcania|moment obrotowy dokręcania|o kąt|kąt|kątem|kąt dokręcania|o kolejne|o dalsze|' +
      'dodatkowo|dodatkowo o|jeszcze|jeszcze o|i o|wartość|ponownie|ponownie dokręcić|ponownie dokręcić momentem',
    min: 'minimalnie|co najmniej',
    max: 'maks|maks.|maksymalnie|maksimum|najwyżej',
    limit: 'nie więcej niż|nie przekraczać',
    about: 'około|ok|ok.',
    slacken: 'poluzować|poluzować o|odkręcić|odkręcić o|zluzować|luzować|poluzować wszystkie',
    fully: 'całkowicie|zupełnie',
    thing:
      'śruba|śruby|śrub|śrubę|nakrętka|nakrętki|nakrętek|nakrętkę|wkręt|wkręty|szpilka|szpilki|szpilek|korek|szt|szt.|sztuk|wszystkie|każda|każdą|świeca|świece',
    reference:
      'strona|stronie|str|str.|rys|rys.|rysunek|poz|poz.|pozycja|numer|tabela|tab.|wiersz|punkt|pkt|pkt.|patrz|klasa|klucz|rozmiar',
    condition:
      'suchy|sucha|suche|sucho|na sucho|naoliwione|naoliwiony|olejem|nowe|nowa|nowy|nowych|używane|używana|stare|stara|gorący|gorącym|zimny|' +
      'zimnym|na zimno|na gorąco|stal|aluminium|żeliwo|mosiądz|bez|długa|długie|krótka|krótkie',
    change:
      'jeśli|jeżeli|oprócz|z wyjątkiem|inaczej|dawniej|poprzednio|zamiast|odpowiednio|zwiększyć|zmniejszyć|zbyt|błąd|błędny|anulowano|nieaktualne',
    later: 'po|godzin|godzinach|później|docieraniu',
    kind:
      'moment tarcia|moment oporu|moment oporów|moment zrywający|moment odkręcania|moment zrywania|obr/min|moc|zakres|zakres pomiarowy|' +
      'napięcie wstępne|moment obrotowy silnika|moment silnika|moment toczenia|moment obrotu',
    check: 'sprawdzić|sprawdzać|sprawdzenie|kontrola|kontrolować|skontrolować|moment kontrolny',
    not: 'nie|nigdy|żaden|żadnej',
    harmless: 'nie dokręcać zbyt mocno|nie smarować|nie używać ponownie|nie oliwić',
    seat: 'ręcznie|ręką|dokręcić ręcznie|do oporu|do zetknięcia',
  },
  degrees: 'stopni|stopnie',
  turn: 'obrót|obrotu|obroty|obrotów',
  amounts: {
    ćwierć: 1 / 4,
    'o ćwierć': 1 / 4,
    'jedną czwartą': 1 / 4,
    pół: 1 / 2,
    'o pół': 1 / 2,
    'jedną trzecią': 1 / 3,
    'trzy czwarte': 3 / 4,
    jeden: 1,
    'o jeden': 1,
    dwa: 2,
  },
  stage: 'etap|krok|faza',
  act: 'dokręcanie|dokręcenie',
  suffixBesideStage: '\\.',
  ordinals: [
    'pierwszy|pierwsza|pierwsze|najpierw',
    'drugi|druga|drugie',
    'trzeci|trzecia|trzecie',
    'czwarty|czwarta|czwarte',
  ],
  counts: ['jeden|jednym', 'dwa|dwóch', 'trzy|trzech', 'cztery|czterech', 'pięć|pięciu'],
  unnumbered: 'ostatecznie|na koniec|wstępnie',
  staged: { before: 'w', stages: 'etapach|krokach|fazach' },
}
