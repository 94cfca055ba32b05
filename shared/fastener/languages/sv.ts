import type { VocabularyWords } from './language'

/** Swedish. */
export const swedish: VocabularyWords = {
  lubrication: {
    dry: 'torr|torrt|torra|ren och torr|rent och torrt|rena och torra|torr gänga|torra gängor',
    oil:
      'gängan oljas in|gängorna oljas in|oljas in|oljad|oljat|oljade|inoljad|inoljat|inoljade|olja|motorolja|med olja|med motorolja|smord med olja|smord med motorolja|' +
      'oljad gänga|oljade gängor',
    grease:
      'gängan fettas in|gängorna fettas in|fettas in|fettad|fettat|fettade|infettad|infettat|infettade|fett|smörjfett|litiumfett|med fett',
    paste: 'MoS2-pasta|molybdendisulfid|molybdendisulfidpasta|grafitpasta',
    anti_seize: 'kopparpasta|kopparfett|keramikpasta|keramisk pasta',
    threadlocker: 'gänglåsning|gänglåsvätska|låsvätska',
    zinc_plated: 'elförzinkad|elförzinkat|elförzinkade',
    wax: 'vaxad|vaxat|vaxade',
  },
  material: {
    cast_iron: 'gjutjärn|gråjärn|grått gjutjärn',
    ductile_iron: 'segjärn',
    cast_aluminium: 'pressgjuten aluminium|pressgjutet aluminium',
    cast_aluminium_gravity:
      'sandgjuten aluminium|sandgjutet aluminium|kokillgjuten aluminium|kokillgjutet aluminium',
    steel: 'stål|konstruktionsstål',
    bronze: 'brons|tennbrons',
  },
  grade: 'klass|hållfasthetsklass|skruv|skruvar|bult|märkt|skruv märkt',
  stainless: 'rostfri|rostfritt|rostfritt stål',
  hints: {
    dry: 'utan inte ej ingen ren rena avfettad avfettade osmord osmorda oljefri',
    oil: 'olja smord smorda smörj smörja smörjmedel smörjning',
    grease: 'smord smorda smörj smörja smörjmedel smörjning',
    paste: 'pasta molybden grafit',
    anti_seize: 'koppar keramisk pasta',
    threadlocker: 'gänglås låsning',
    zinc_plated: 'förzinkad förzinkade varmförzinkad ytbehandlad',
    wax: 'vax',
    cast_iron: 'järn gjutgods',
    ductile_iron: 'järn gjutjärn gjutgods',
    cast_aluminium: 'aluminium lättmetall gjuten gjutgods',
    cast_aluminium_gravity: 'aluminium lättmetall gjuten gjutgods',
    cast_aluminium_heat_treated: 'aluminium lättmetall gjuten gjutgods',
    wrought_aluminium: 'aluminium lättmetall',
    wrought_aluminium_strong: 'aluminium lättmetall',
    steel: 'rostfritt',
    steel_500: 'stål rostfritt',
    steel_700: 'stål seghärdat',
  },
}
