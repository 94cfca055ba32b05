/**
 * What tables print for fasteners that seal: screw plugs and spark plugs, from the lightest seat to the heaviest.
 *
 * Found in public documents, as named with each; the figures stand as printed.
 */
export interface SealTable {
  title: string
  source: string
  unit: 'N·m' | 'lbf·ft'
  /** Thread and what is printed for it, lowest and highest over the materials it goes into. */
  rows: [thread: string, lowest: number, highest: number][]
}

export const SEALS: SealTable[] = [
  {
    title: 'screw plugs, in aluminium and in steel or grey iron',
    source:
      'operating instructions of an engine maker, M015655/05E, 2015-06, page 28 (manualshive.com/en/manual/…/1852671?page=28)',
    unit: 'N·m',
    rows: [
      ['M10x1', 10, 20],
      ['M12x1.5', 14, 35],
      ['M14x1.5', 15, 45],
      ['M16x1.5', 18, 55],
      ['M18x1.5', 23, 70],
      ['M22x1.5', 33, 100],
      ['M27x2', 57, 170],
      ['M33x2', 103, 310],
      ['M42x2', 110, 330],
      ['M48x2', 140, 420],
      ['M60x2', 200, 200],
    ],
  },
  {
    title: 'spark plugs, taper and gasket seats',
    source:
      'R. L. Parish, Spark Plug Tightening Torque, Louisiana State University AgCenter, 5/12/2006 (lsuagcenter.com)',
    unit: 'lbf·ft',
    rows: [
      ['M10x1', 7, 11],
      ['M12x1.25', 11, 19],
      ['M14x1.25', 7, 29],
      ['M18x1.5', 15, 38],
      ['7/8-18', 31, 43],
    ],
  },
]
