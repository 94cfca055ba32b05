/**
 * What every answer rests on: its formula, where that stands, and how it was come by.
 *
 * Results name entries of this table, so that a screen can show formula and source one touch away. `found`: seen
 * in a public document. `memory`: written down from memory, not seen. `common_practice`: the trade's, no source.
 */
export type BasisStatus = 'found' | 'memory' | 'common_practice' | 'computed'
export interface Basis {
  title: string
  formula: string
  source: string
  status: BasisStatus
}

export const BASIS = {
  thread_metric: {
    title: 'Metric thread profile',
    formula: 'd2 = d − 0.649519 P, D1 = d − 1.082532 P, d3 = d − 1.226869 P',
    source: 'ISO 68-1, ISO 724',
    status: 'memory',
  },
  thread_unified: {
    title: 'Unified thread profile',
    formula: 'E = D − 0.649519/n, D1 = D − 1.082532/n, n threads an inch',
    source: 'ASME B1.1',
    status: 'memory',
  },
  stress_area_metric: {
    title: 'Stress area',
    formula: 'As = π/4 · ((d2 + d3)/2)²',
    source: 'ISO 898-1, 9.1.6.1; values printed there agree within half a printed unit',
    status: 'found',
  },
  stress_area_unified: {
    title: 'Stress area',
    formula: 'At = π/4 · (D − 0.9743/n)²',
    source: 'ASME B1.1; printed values agree within half a printed unit',
    status: 'found',
  },
  strength_iso: {
    title: 'Property class',
    formula: 'proof load = As · Sp, ultimate load = As · Rm',
    source:
      'ISO 898-1, table 3: Sp and the strengths of 8.8 to 12.9 found, Rm and Re of 4.6 to 6.8 from memory',
    status: 'found',
  },
  strength_sae: {
    title: 'Grade',
    formula: 'proof load = At · Sp, 1 ksi = 6.894757 MPa',
    source:
      'SAE J429, as quoted in Shigley and Mischke, Mechanical Engineering Design, 5th edition, page 341',
    status: 'found',
  },
  strength_sae_memory: {
    title: 'Grade',
    formula: 'proof load = At · Sp, 1 ksi = 6.894757 MPa',
    source: 'SAE J429',
    status: 'memory',
  },
  strength_stainless: {
    title: 'Stainless class',
    formula: 'stress at 0.2 % permanent strain; no proof stress is given for bolts, so that one is used',
    source: 'ISO 3506-1',
    status: 'memory',
  },
  strength_given: {
    title: 'Strength entered',
    formula: 'as entered',
    source: 'whoever entered it',
    status: 'computed',
  },
  vdi2230: {
    title: 'Preload and tightening torque',
    formula:
      'F = A0·ν·Rp0.2 / √(1 + 3·[(3/2)(d2/d0)·tan(φ + ρ′)]²); M = F·[(d2/2)·tan(φ + ρ′) + DKm·μK/2]; tan φ = P/(π·d2), tan ρ′ = μG/cos 30°',
    source:
      'VDI 2230 Part 1, 2001 and later (plastic torsion); its table A1 within its own rounding, cells that depart are listed in the checks',
    status: 'found',
  },
  friction_classes: {
    title: 'Friction classes',
    formula: 'A 0.04–0.10, B 0.08–0.16, C 0.14–0.24, D 0.20–0.35, E ≥ 0.30',
    source: 'VDI 2230 Part 1, table A5',
    status: 'found',
  },
  head_bearing: {
    title: 'Hexagon head bearing diameter',
    formula:
      'ISO 4014 washer face; ASME B18.2.1 as 0.95 of the width across flats; between sizes in proportion',
    source: 'ISO 4014, ASME B18.2.1',
    status: 'memory',
  },
  clearance_hole: {
    title: 'Clearance hole',
    formula: 'ISO 273 medium; ASME B18.2.8 normal; between sizes in proportion',
    source: 'ISO 273, ASME B18.2.8',
    status: 'memory',
  },
  short_form: {
    title: 'Short form',
    formula: 'T = K · d · F',
    source: 'definition of the nut factor',
    status: 'computed',
  },
  preload_range: {
    title: 'Preload range',
    formula: 'Fmax = (1 + Γ)·T/(K·d), Fmin = (1 − Γ)·T/(K·d), less 5 % for settling',
    source: 'NASA-STD-5020A, section 6',
    status: 'memory',
  },
  preload_scatter: {
    title: 'Preload scatter by method',
    formula: 'plus and minus a percentage of the mean preload',
    source:
      'NSTS 08307 and Machinery’s Handbook, both as quoted in “Methods of Applying and Measuring Preload”',
    status: 'found',
  },
  tolerance_metric: {
    title: 'Limits 6g and 6H',
    formula:
      'es(g) = −(15 + 11 P); Td = 180·P^(2/3) − 3.15/√P; Td2 = 90·P^0.4·d^0.1; TD1 = 230·P^0.7 or 433·P − 190·P^1.22 (µm), rounded to the R40 series; TD2 five steps of that series above Td2',
    source: 'ISO 965-1, formulas of its annex, and the few rows that depart from them',
    status: 'memory',
  },
  tolerance_unified: {
    title: 'Limits 2A and 2B',
    formula:
      'Td2 = 0.0015·(D^(1/3) + √Le + 10·P^(2/3)); es = 0.3·Td2; Td = 0.06·P^(2/3); TD2 = 1.3·Td2; TD1 = 0.25·P − 0.4·P² (in)',
    source: 'ASME B1.1',
    status: 'memory',
  },
  strip: {
    title: 'Thread stripping',
    formula:
      'bolt: (π/P)·L·D1max·[P/2 + 0.57735·(d2min − D1max)]; hole: (π/P)·L·dmin·[P/2 + 0.57735·(dmin − D2max)]; load = area · shear strength',
    source: 'FED-STD-H28/2B, Machinery’s Handbook; published areas agree within 0.02 %',
    status: 'found',
  },
  bolt_shear: {
    title: 'Shear strength of the bolt thread',
    formula: 'τ = 0.6 · Rm',
    source: 'VDI 2230 Part 1 (0.60 to 0.65 for steels)',
    status: 'memory',
  },
  insert_wire: {
    title: 'Wire insert',
    formula:
      'installed length = nominal − 0.5 P to − 0.75 P; full thread = nominal + P; drill = nominal + 6 P (+ d/2 up to 8 mm) with a plug tap, nominal + 4 P with a bottoming tap; set down 0.75 to 1.5 P',
    source: 'ASME B18.29.8M-2005',
    status: 'found',
  },
  insert_tap: {
    title: 'Tapped thread of a wire insert',
    formula: 'minor = d + 0.216506 P, pitch = d + 0.649519 P, major = d + 1.299038 P',
    source: 'NASM33537, DIN 8140',
    status: 'memory',
  },
  hole_fit: {
    title: 'Bolt in its hole',
    formula:
      'engagement = length − stack − washer; clearance = thread depth − engagement; at least 2 P wanted',
    source: 'rule of the trade, no source',
    status: 'common_practice',
  },
  bolt_thread: {
    title: 'Thread length of a standard bolt',
    formula: 'b = 2d + 6 mm up to 125 mm, 2d + 12 mm up to 200 mm, 2d + 25 mm above; all thread below 4 d',
    source: 'ISO 4014; inch bolts ASME B18.2.1; run-out of 2.5 P, ISO 3508',
    status: 'memory',
  },
  lengths: { title: 'Standard lengths', formula: 'a table', source: 'ISO 888', status: 'memory' },
  angle: {
    title: 'Preload from an angle',
    formula: 'ΔF = kb·kj/(kb + kj) · P · θ/360, kb = E / Σ(l/A)',
    source: 'elastic springs in series; holds below yield only',
    status: 'computed',
  },
  turn_of_nut: {
    title: 'Turn of nut',
    formula: '1/3 turn to 4 d, 1/2 to 8 d, 2/3 to 12 d; both faces square',
    source:
      'RCSC, Specification for Structural Joints Using High-Strength Bolts, table 8.2; tolerances from memory',
    status: 'found',
  },
  order_circle: {
    title: 'Cross pattern',
    formula: 'opposite pairs, quarter-turn groups, each next group farthest from those done',
    source:
      'ASME PCC-1 legacy pattern; 12 bolts found, the others from memory; other counts by the same rule',
    status: 'memory',
  },
  order_rows: {
    title: 'From the centre outward',
    formula: 'nearest to the centre first, round in a spiral',
    source: 'rule of the trade for straight heads, no source',
    status: 'common_practice',
  },
  airframe_table: {
    title: 'Torque by size, oil-free plated threads',
    formula: 'a table',
    source: 'FAA AC 43.13-1B, table 7-1 (1998)',
    status: 'found',
  },
} as const satisfies Record<string, Basis>
export type BasisId = keyof typeof BASIS
