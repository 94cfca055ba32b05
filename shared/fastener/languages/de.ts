import type { VocabularyWords } from './language'

/** German. */
export const german: VocabularyWords = {
  lubrication: {
    dry: 'trocken|Gewinde trocken und fettfrei|trocken und fettfrei|sauber und trocken|trocken und sauber|Gewinde trocken|trockenes Gewinde|trockene Gewinde',
    oil:
      'geölt|mit Motorenöl|Motorenöl|mit Motorenöl benetzt|mit Motorenöl geölt|eingeölt|Öl|Motoröl|mit Öl|mit Motoröl|mit Öl benetzt|mit Motoröl benetzt|mit Motoröl geölt|Gewinde geölt|' +
      'Gewinde und Kopfauflage geölt|Gewinde und Kopfauflage ölen|Gewinde und Auflagefläche geölt|motorölbenetzt',
    grease:
      'gefettet|eingefettet|Gewinde mit Mehrzweckfett|Gewinde mit Fett|Gewinde eingefettet|Fett|Schmierfett|Lithiumfett|Mehrzweckfett|mit Fett|mit Fett bestrichen|Gewinde gefettet',
    paste:
      'MoS2-Paste|Molybdändisulfid|Molybdändisulfidpaste|Molybdändisulfid-Paste|Molybdänpaste|Graphitpaste|Grafitpaste|' +
      'MoS2-Gleitlack',
    anti_seize: 'Kupferpaste|Kupferfett|Keramikpaste',
    threadlocker:
      'flüssige Schraubensicherung|Schraubensicherungsmittel|Schraubensicherungskleber|Schraubensicherung mittelfest|' +
      'Schraubensicherung hochfest|mittelfeste Schraubensicherung|hochfeste Schraubensicherung',
    zinc_plated: 'galvanisch verzinkt|elektrolytisch verzinkt',
    wax: 'gewachst|wachsbeschichtet',
  },
  material: {
    cast_iron: 'Gusseisen|Grauguss|Gusseisen mit Lamellengraphit|Gusseisen mit Lamellengrafit',
    ductile_iron: 'Sphäroguss|Kugelgraphitguss|Gusseisen mit Kugelgraphit|Gusseisen mit Kugelgrafit',
    cast_aluminium: 'Aluminiumdruckguss|Aluminium-Druckguss|Alu-Druckguss|Druckgussaluminium',
    cast_aluminium_gravity:
      'Aluminiumsandguss|Aluminium-Sandguss|Aluminiumkokillenguss|Aluminium-Kokillenguss',
    steel: 'Stahl|Baustahl',
    bronze: 'Zinnbronze|Gussbronze',
  },
  grade: 'Festigkeitsklasse|Güte|Schraubengüte|Klasse|Schraube|Schrauben',
  stainless: 'Edelstahl|rostfrei|nichtrostend|nichtrostender Stahl',
  hints: {
    dry: 'ohne nicht kein keine ungeschmiert ungeölt entfettet fettfrei ölfrei sauber blank Anlieferungszustand',
    oil: 'ölen geschmiert Schmierung Schmiermittel Schmierstoff ölfrei ungeölt ungeschmiert',
    grease: 'fetten geschmiert Schmierung Schmiermittel Schmierstoff fettfrei Graphitfett',
    paste: 'Paste Gleitlack Molybdän MoS2-Fett Graphitfett Montagepaste',
    anti_seize: 'Kupfer Keramik Montagepaste Paste Heißschraubenpaste',
    threadlocker: 'Schraubensicherung Schraubensicherungslack gesichert',
    zinc_plated: 'verzinkt feuerverzinkt beschichtet Zinklamelle',
    wax: 'Wachs beschichtet',
    cast_iron: 'Guss Eisen',
    ductile_iron: 'Guss Gusseisen Eisen',
    cast_aluminium: 'Guss Druckguss Aluminium Aluminiumguss Alu Alu-Guss Leichtmetall Aluminiumlegierung',
    cast_aluminium_gravity:
      'Guss Sandguss Aluminium Aluminiumguss Alu Alu-Guss Leichtmetall Aluminiumlegierung',
    cast_aluminium_heat_treated:
      'Guss Aluminium Aluminiumguss Alu Leichtmetall Aluminiumlegierung warmausgehärtet',
    wrought_aluminium: 'Aluminium Alu Leichtmetall Aluminiumlegierung Knetlegierung',
    wrought_aluminium_strong: 'Aluminium Alu Leichtmetall Aluminiumlegierung Knetlegierung',
    steel: 'Stahlguss Vergütungsstahl Edelstahl',
    steel_500: 'Stahl Stahlguss Vergütungsstahl Edelstahl',
    steel_700: 'Stahl Vergütungsstahl',
    bronze: 'Rotguss',
  },
}
