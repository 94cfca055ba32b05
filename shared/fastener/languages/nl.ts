import type { VocabularyWords } from './language'

/** Dutch. */
export const dutch: VocabularyWords = {
  lubrication: {
    dry: 'droog|droge|schoon en droog|droge schroefdraad|schroefdraad droog|droog gemonteerd',
    oil:
      'olie|motorolie|geolied|geoliede|ingeolied|met olie|met motorolie|gesmeerd met olie|gesmeerd met motorolie|' +
      'geoliede schroefdraad|schroefdraad geolied',
    grease: 'vet|smeervet|lithiumvet|ingevet|gevet|met vet|gesmeerd met vet',
    paste: 'MoS2-pasta|molybdeendisulfide|molybdeenpasta|grafietpasta',
    anti_seize: 'koperpasta|kopervet|keramische pasta|keramisch vet|anti-seize-pasta',
    threadlocker: 'borgmiddel|schroefdraadborging|schroefdraadborgmiddel',
    zinc_plated: 'elektrolytisch verzinkt',
    wax: 'met was gecoat',
  },
  material: {
    cast_iron: 'gietijzer|grijs gietijzer',
    ductile_iron: 'nodulair gietijzer',
    cast_aluminium: 'onder druk gegoten aluminium',
    cast_aluminium_gravity: 'zandgegoten aluminium',
    steel: 'staal|constructiestaal',
    bronze: 'brons|tinbrons',
  },
  hints: {
    dry: 'zonder niet geen schoon ontvet ontvette',
    oil: 'oliën gesmeerd smeren smeermiddel smering',
    grease: 'invetten gesmeerd smeren smeermiddel smering',
    paste: 'pasta molybdeen grafiet',
    anti_seize: 'koper keramisch keramische pasta',
    threadlocker: 'borgen borging',
    zinc_plated: 'verzinkt thermisch gecoat',
    wax: 'was gecoat',
    cast_iron: 'ijzer gietwerk',
    ductile_iron: 'ijzer gietijzer gietwerk',
    cast_aluminium: 'aluminium lichtmetaal gegoten gietwerk spuitgietwerk',
    cast_aluminium_gravity: 'aluminium lichtmetaal gegoten gietwerk',
    cast_aluminium_heat_treated: 'aluminium lichtmetaal gegoten gietwerk',
    wrought_aluminium: 'aluminium lichtmetaal',
    wrought_aluminium_strong: 'aluminium lichtmetaal',
    steel: 'roestvast',
    steel_500: 'staal roestvast',
    steel_700: 'staal',
  },
}
