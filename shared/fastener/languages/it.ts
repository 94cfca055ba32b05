import type { VocabularyWords } from './language'

/** Italian. */
export const italian: VocabularyWords = {
  lubrication: {
    dry:
      'secco|secca|secchi|secche|a secco|asciutto|asciutta|asciutti|asciutte|pulito e asciutto|puliti e asciutti|' +
      'filetto asciutto|filetti asciutti',
    oil:
      'oliato|oliata|oliati|oliate|olio|olio motore|con olio|con olio motore|lubrificato con olio|lubrificato con olio motore|' +
      'filetto oliato|filetti oliati',
    grease:
      'ingrassato|ingrassata|ingrassati|ingrassate|grasso|con grasso|grasso al litio|grasso multiuso|filetto ingrassato',
    paste:
      'pasta MoS2|pasta al MoS2|bisolfuro di molibdeno|disolfuro di molibdeno|pasta al bisolfuro di molibdeno|pasta grafitata',
    anti_seize:
      'pasta al rame|grasso al rame|antigrippante|pasta antigrippante|pasta ceramica|grasso ceramico',
    threadlocker: 'frenafiletti|frena filetti|frenafiletti medio|frenafiletti forte',
    zinc_plated: 'elettrozincato|zincato elettroliticamente|zincatura elettrolitica',
    wax: 'cerato|rivestito di cera',
  },
  material: {
    cast_iron: 'ghisa|ghisa grigia|ghisa lamellare',
    ductile_iron: 'ghisa sferoidale|ghisa duttile|ghisa nodulare',
    cast_aluminium: 'alluminio pressofuso',
    cast_aluminium_gravity:
      'alluminio fuso in sabbia|alluminio colato in sabbia|alluminio fuso in conchiglia|alluminio colato in conchiglia',
    steel: 'acciaio|acciaio dolce|acciaio da costruzione',
    bronze: 'bronzo|bronzo allo stagno',
  },
  grade: 'classe|classe di resistenza|vite|viti',
  stainless: 'inox|acciaio inox|acciaio inossidabile',
  hints: {
    dry: 'senza non né pulito sgrassato sgrassata',
    oil: 'oliare lubrificato lubrificata lubrificare lubrificante lubrificazione',
    grease: 'ingrassare lubrificato lubrificata lubrificare lubrificante lubrificazione',
    paste: 'pasta molibdeno grafite grafitata',
    anti_seize: 'rame ceramica pasta',
    threadlocker: 'bloccante',
    zinc_plated: 'zincato zincata galvanizzato rivestito',
    wax: 'cera rivestito',
    ductile_iron: 'ghisa',
    cast_iron: 'ferro',
    cast_aluminium: 'alluminio lega leggera fuso fusione',
    cast_aluminium_gravity: 'alluminio lega leggera fuso fusione',
    cast_aluminium_heat_treated: 'alluminio lega leggera fuso fusione',
    wrought_aluminium: 'alluminio lega leggera forgiato',
    wrought_aluminium_strong: 'alluminio lega leggera forgiato',
    steel: 'inossidabile inox',
    steel_500: 'acciaio inossidabile inox',
    steel_700: 'acciaio bonificato',
  },
}
