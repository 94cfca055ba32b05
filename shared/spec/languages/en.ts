import type { Language } from './language'

/** English, also as translated from Japanese. */
export const english: Language = {
  words: {
    next: 'then|and then|followed by|next|repeat|and repeat|thereafter|afterwards|after that|subsequently',
    plus: '∠|plus|and a further|and an additional|and another',
    and: 'and|&',
    or: 'or',
    to: 'to|thru',
    a: 'a',
    down: 'down to|then down to',
    between: 'between|from',
    filler:
      'tighten|torquing|torquing to|angle tighten|angle-tighten|tighten again|tighten again to|tighten again with|tighten with|regularly tighten|regularly tighten by|regularly tighten to|fully tighten|fully tighten by|fully tighten to|increase angle|increase the angle|increase angle by|torque wrench setting|torque wrench settings|tighten to|tighten by|tightening torque|tightening|tightened|retighten|retighten to|re-tighten|re-tighten to|' +
      'torque|torque to|torqued to|retorque|re-torque|retorque to|re-torque to|torque angle|angle|angle of|rotate|' +
      'turn by|turn through|an|another|a further|further|additional|an additional|additionally|extra|more|by|of|of a|' +
      'value|specification|spec|nominal|set to|set at|at|the|again|clockwise|cw|in order|in sequence|in the order shown|in the sequence shown|crosswise|diagonally|torque value|specified torque|standard torque',
    min: 'min|min.|minimum|at least|not less than|no less than|≥|>=|>',
    max: 'max|max.|maximum|at most|up to|≤|<=|<',
    limit:
      'not more than|no more than|not over|do not exceed|must not exceed|not to exceed|not exceeding|never more than|never exceed',
    about: 'approx|approx.|approximately|about|ca|ca.|circa|≈|~',
    slacken:
      'slacken|slacken off|slacken all|loosen once|loosen once all|loosen all once|once loosen|loosen all|slacken all bolts|loosen all bolts|back off all|slackened|loosen|loosened|back off|back-off|backoff|back out|release|undo|unscrew|turn back|' +
      'slacken by|loosen by|back off by|turn back by',
    fully: 'fully|completely|entirely|totally|all the way',
    tolerance: 'plus or minus|plus/minus',
    thing:
      'bolt|bolts|nut|nuts|screw|screws|stud|studs|capscrew|capscrews|setscrew|setscrews|plug|plugs|cap|caps|off|pcs|pcs.|pieces|' +
      'places|each|all|joint|joints|union|unions|holes|thread|threads|cylinder|cylinders|cyl|cyl.',
    reference:
      'page|pages|p.|pp.|fig|fig.|figs.|figure|figures|item|items|no.|nos|nos.|number|position|positions|pos|pos.|table|line|' +
      'note|notes|section|sheet|ref|ref.|part|key|index|callout|detail|illustration|engine no.|from no.|row|column|grade|class|size',
    condition:
      'dry|oiled|lubricated|greased|oil|grease|new|used|reused|re-used|old|second-hand|hot|cold|warm|plated|zinc|unplated|' +
      'steel|aluminium|aluminum|iron|brass|bronze|plastic|loctite|sealant|without|long|short|inner|outer|upper|lower|front|rear',
    change:
      'if|unless|except|otherwise|else|or|either|formerly|previously|was|were|instead|superseded|obsolete|corrected|reduce|' +
      'reduced|increase|increased|subtract|less|times|deduct|respectively|resp|resp.|optional|depending|too|too much|excessive|insufficient|incorrect|wrong|misprint|error|cancelled|canceled|withdrawn|void|deleted|struck out|at a time|a bit at a time|little by little|until seated|wrench setting|crowfoot|adapter|adaptor|with extension',
    later: 'after|hours|hrs|h|km|miles|running-in|run-in|later|when',
    kind:
      'prevailing|prevailing torque|running torque|free running|breakaway|break-away|break away|breaking torque|break-loose|breakloose|' +
      'rotating torque|rotational torque|rotation torque|rotation resistance|rolling torque|turning torque|drag torque|friction torque|' +
      'frictional torque|preload|starting torque|stall torque|output torque|engine torque|engine output|peak torque|rated torque|rpm|' +
      'r/min|rev/min|torque wrench range|wrench range|torque range|range|wrench capacity|capacity|slip torque|slipping torque|' +
      'failure torque|stripping torque|yield torque|ultimate torque|removal torque|loosening torque|release torque|stiction|residual torque|' +
      'starter torque|kw|hp|bhp|ps',
    check:
      'check|checking|checked|recheck|re-check|inspect|inspection|verify|verification|test|testing|audit',
    not: "not|no|never|don't|cannot|neither|nor|without torque",
    harmless:
      'do not overtighten|do not over-tighten|not overtighten|do not reuse|do not re-use|do not oil|do not lubricate|do not grease|' +
      'do not use oil|do not use grease|never overtighten|never reuse|do not overtorque|do not over-torque|do not forget|do not damage|do not twist|no oil|no grease',
    seat: 'hand tight|hand-tight|finger tight|finger-tight|hand tighten|snug|snug tight|by hand|contact|until contact|seated|seats',
  },
  degrees: 'deg|deg.|degs|degs.|degree|degrees',
  turn: 'turn|turns|rev|revs|revolution|revolutions|rotation|rotations',
  amounts: {
    quarter: 1 / 4,
    'one quarter': 1 / 4,
    'one-quarter': 1 / 4,
    half: 1 / 2,
    'one half': 1 / 2,
    'one-half': 1 / 2,
    third: 1 / 3,
    'one third': 1 / 3,
    'one-third': 1 / 3,
    'two thirds': 2 / 3,
    'two-thirds': 2 / 3,
    sixth: 1 / 6,
    'one sixth': 1 / 6,
    'one-sixth': 1 / 6,
    eighth: 1 / 8,
    'one eighth': 1 / 8,
    'one-eighth': 1 / 8,
    'three quarter': 3 / 4,
    'three quarters': 3 / 4,
    'three-quarter': 3 / 4,
    'three-quarters': 3 / 4,
    one: 1,
    full: 1,
    'one full': 1,
    'one and a half': 1.5,
    two: 2,
    three: 3,
  },
  stage: 'step|stage|pass|phase|round|sequence',
  act: 'tightening|torque',
  before: 'initial|initially|temporarily|provisionally|preliminarily',
  dated: 'from|since|until|up to|from year|up to year|as of',
  suffix: 'st|nd|rd|th',
  ordinals: ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'],
  counts: ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'],
  times: { twice: 2, 'two times': 2, 'three times': 3 },
  unnumbered:
    'temporarily|provisionally|preliminarily|final|finally|initial|initially|lastly|last|and finally',
  staged: { before: 'in', stages: 'steps|stages|passes|phases|rounds' },
}
