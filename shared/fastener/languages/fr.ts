import type { VocabularyWords } from './language'

/** French. */
export const french: VocabularyWords = {
  lubrication: {
    dry: 'sec|sèche|secs|sèches|à sec|propre et sec|propres et secs|sec et propre|filetage sec|filets secs',
    oil:
      "huilé|huilée|huilés|huilées|huile|huile moteur|à l'huile|à l'huile moteur|huilé à l'huile moteur|lubrifié à l'huile|" +
      "lubrifié à l'huile moteur|enduit d'huile|enduit d'huile moteur|filetage huilé|filets huilés|filets huilés à l'huile moteur|filets huilés à l'huile moteur propre",
    grease:
      'graissé|graissée|graissés|graissées|graisse|graisse au lithium|graisse multi-usage|filetage graissé|filets graissés',
    paste:
      'pâte MoS2|pâte au MoS2|bisulfure de molybdène|disulfure de molybdène|pâte au bisulfure de molybdène|' +
      'pâte au disulfure de molybdène|pâte graphitée',
    anti_seize:
      'graisse au cuivre|graisse cuivrée|pâte au cuivre|antigrippant|pâte antigrippage|pâte céramique|graisse céramique',
    threadlocker: 'frein-filet|freinfilet|frein-filet faible|frein-filet moyen|frein-filet fort',
    zinc_plated: 'électrozingué|zingué électrolytique|zingage électrolytique',
    wax: 'revêtu de cire',
  },
  material: {
    cast_iron: 'fonte|fonte grise|fonte à graphite lamellaire',
    ductile_iron: 'fonte ductile|fonte GS|fonte nodulaire|fonte à graphite sphéroïdal',
    cast_aluminium: 'aluminium coulé sous pression|aluminium moulé sous pression',
    cast_aluminium_gravity:
      'aluminium coulé en sable|aluminium moulé en sable|aluminium coulé en coquille|aluminium moulé en coquille',
    steel: 'acier|acier doux|acier de construction',
    bronze: "bronze à l'étain|bronze coulé",
  },
  grade: 'classe|classe de qualité|classe de résistance|qualité|vis',
  stainless: 'inox|acier inox|acier inoxydable',
  hints: {
    dry: 'sans ne pas non ni propre dégraissé dégraissée nettoyé livraison',
    oil: 'huiler lubrifié lubrifiée lubrifier lubrifiant lubrification',
    grease: 'graisser lubrifié lubrifiée lubrifier lubrifiant lubrification graphitée',
    paste: 'pâte molybdène graphite graphité graphitée vernis',
    anti_seize: 'cuivre céramique antigrippage pâte',
    threadlocker: 'frein freinage',
    zinc_plated: 'zingué zinguée galvanisé galvanisée revêtu revêtement',
    wax: 'cire ciré revêtu revêtement',
    ductile_iron: 'fonte',
    cast_iron: 'fer',
    cast_aluminium: "aluminium d'aluminium alliage léger coulé moulé",
    cast_aluminium_gravity: "aluminium d'aluminium alliage léger coulé moulé",
    cast_aluminium_heat_treated: "aluminium d'aluminium alliage léger coulé moulé trempé",
    wrought_aluminium: "aluminium d'aluminium alliage léger forgé corroyé",
    wrought_aluminium_strong: "aluminium d'aluminium alliage léger forgé corroyé",
    steel: 'inoxydable',
    steel_500: 'acier inoxydable',
    steel_700: 'acier trempé',
  },
}
