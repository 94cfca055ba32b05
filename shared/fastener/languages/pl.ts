import type { VocabularyWords } from './language'

/** Polish. */
export const polish: VocabularyWords = {
  lubrication: {
    dry: 'suchy|sucha|suche|na sucho|czysty i suchy|czysta i sucha|czyste i suche|suchy gwint|suche gwinty',
    oil:
      'olej|olej silnikowy|z olejem|naoliwiony|naoliwiona|naoliwione|naolejowany|naolejowana|naolejowane|smarowany olejem|' +
      'smarowane olejem|nasmarowane olejem|nasmarowane olejem silnikowym|naoliwiony gwint',
    grease: 'smar stały|smar plastyczny|smar litowy|nasmarowane smarem stałym|nasmarowane smarem plastycznym',
    paste: 'pasta MoS2|pasta molibdenowa|dwusiarczek molibdenu|disiarczek molibdenu|pasta grafitowa',
    anti_seize: 'smar miedziany|pasta miedziana|pasta ceramiczna|smar ceramiczny',
    threadlocker: 'klej do gwintów|środek do zabezpieczania gwintów',
    zinc_plated:
      'ocynkowany galwanicznie|ocynkowana galwanicznie|ocynkowane galwanicznie|cynkowany galwanicznie|cynkowane galwanicznie',
    wax: 'woskowany|woskowana|woskowane',
  },
  material: {
    cast_iron: 'żeliwo|żeliwo szare',
    ductile_iron: 'żeliwo sferoidalne',
    cast_aluminium: 'aluminium odlewane ciśnieniowo',
    cast_aluminium_gravity: 'aluminium odlewane w piasku|aluminium odlewane grawitacyjnie',
    steel: 'stal|stal konstrukcyjna',
    bronze: 'brąz|brąz cynowy',
  },
  hints: {
    dry: 'bez nie odtłuszczony odtłuszczone czysty czyste sucho',
    oil: 'smarować smarowany smarowane smar smarem nasmarowane olejem olejowany',
    grease: 'smarować smarowany smarowane smar smarem nasmarowane',
    paste: 'pasta molibden grafit',
    anti_seize: 'miedź miedziany ceramiczny pasta',
    threadlocker: 'klej zabezpieczenie',
    zinc_plated: 'ocynkowany ocynkowana ocynkowane cynkowany galwanizowany',
    wax: 'wosk',
    cast_iron: 'żelazo odlew',
    ductile_iron: 'żeliwo odlew',
    cast_aluminium: 'aluminium stop lekki odlew odlewane',
    cast_aluminium_gravity: 'aluminium stop lekki odlew odlewane',
    cast_aluminium_heat_treated: 'aluminium stop lekki odlew odlewane',
    wrought_aluminium: 'aluminium stop lekki',
    wrought_aluminium_strong: 'aluminium stop lekki',
    steel: 'nierdzewna',
    steel_500: 'stal nierdzewna',
    steel_700: 'stal',
  },
}
