import type { VocabularyWords } from './language'

/** Czech. */
export const czech: VocabularyWords = {
  lubrication: {
    dry: 'suchý|suchá|suché|na sucho|nasucho|za sucha|čistý a suchý|čistá a suchá|čisté a suché|suchý závit|suché závity',
    oil:
      'olej|motorový olej|s olejem|naolejovaný|naolejovaná|naolejované|naolejováno|mazáno olejem|namazáno olejem|' +
      'namazáno motorovým olejem|naolejovaný závit',
    grease: 'tuk|mazací tuk|plastické mazivo|s tukem|mazáno tukem|namazáno tukem',
    paste: 'pasta MoS2|sirník molybdeničitý|disulfid molybdenu|molybdenová pasta|grafitová pasta',
    anti_seize: 'měděná pasta|keramická pasta|měděný tuk',
    threadlocker: 'zajišťovač závitů|lepidlo na závity',
    zinc_plated:
      'galvanicky zinkovaný|galvanicky zinkovaná|galvanicky zinkované|galvanicky pozinkovaný|galvanicky pozinkované',
    wax: 'voskovaný|voskovaná|voskované',
  },
  material: {
    cast_iron: 'litina|šedá litina',
    ductile_iron: 'tvárná litina',
    cast_aluminium: 'hliník litý pod tlakem|tlakově litý hliník',
    cast_aluminium_gravity: 'hliník litý do písku|hliník litý do kokily|gravitačně litý hliník',
    steel: 'ocel|konstrukční ocel',
    bronze: 'bronz|cínový bronz',
  },
  hints: {
    dry: 'bez ne nemazat neolejovat odmaštěný odmaštěné čistý čisté sucho',
    oil: 'mazat mazáno mazaný mazivo mazání naolejovat olejem',
    grease: 'mazat mazáno mazaný mazivo mazání tukem',
    paste: 'pasta molybden grafit',
    anti_seize: 'měď měděný keramický pasta',
    threadlocker: 'lepidlo zajištění',
    zinc_plated: 'pozinkovaný pozinkované zinkovaný zinkované žárově',
    wax: 'vosk',
    cast_iron: 'železo odlitek',
    ductile_iron: 'litina odlitek',
    cast_aluminium: 'hliník lehká slitina litý odlitek',
    cast_aluminium_gravity: 'hliník lehká slitina litý odlitek',
    cast_aluminium_heat_treated: 'hliník lehká slitina litý odlitek',
    wrought_aluminium: 'hliník lehká slitina',
    wrought_aluminium_strong: 'hliník lehká slitina',
    steel: 'nerezová',
    steel_500: 'ocel nerezová',
    steel_700: 'ocel',
  },
}
