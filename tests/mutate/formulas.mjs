/**
 * The formulas and tables that a torque hangs on, and how each is made wrong by one per cent.
 *
 * `find` stands exactly once in its file; `replace` is the same wrong. Where a figure is whole and 1 % of it is less than its
 * printed unit, it is wrong by that much all the same: the check must be as sharp as the print allows.
 * @typedef {{ name: string, file: string, find: string, replace: string }} Formula
 */

/** @type {(file: string, rows: [name: string, find: string, replace: string][]) => Formula[]} */
const of = (file, rows) =>
  rows.map(([name, find, replace]) => ({ name, file: `shared/${file}`, find, replace }))

/** @type {Formula[]} */
export const FORMULAS = [
  ...of('units/torque.ts', [
    ['lbf·ft', '2_500_000_000_000_000', '2_525_000_000_000_000'],
    ['kgf·m', 'KGF_M_NM = 9.80665', 'KGF_M_NM = 9.9047'],
    ['N·mm', 'N·mm: { times: 1, over: 1000 }', 'N·mm: { times: 1, over: 1010 }'],
    ['cN·m', 'cN·m: { times: 1, over: 100 }', 'cN·m: { times: 1, over: 101 }'],
    ['dN·m', 'dN·m: { times: 1, over: 10 }', 'dN·m: { times: 1, over: 10.1 }'],
    ['daN·m', 'daN·m: { times: 10, over: 1 }', 'daN·m: { times: 10.1, over: 1 }'],
    ['kN·m', 'kN·m: { times: 1000, over: 1 }', 'kN·m: { times: 1010, over: 1 }'],
    ['lbf·in', 'over: 12 }', 'over: 12.12 }'],
    ['ozf·in', 'over: 12 * 16 }', 'over: 12 * 16.16 }'],
    ['kgf·cm', 'kgf·cm: { times: KGF_M_NM, over: 100 }', 'kgf·cm: { times: KGF_M_NM, over: 101 }'],
  ]),
  ...of('units/length.ts', [
    ['inch', 'in: { times: 127, over: 5 }', 'in: { times: 128.27, over: 5 }'],
    ['thou', 'thou: { times: 127, over: 5000 }', 'thou: { times: 128.27, over: 5000 }'],
  ]),
  ...of('fastener/profile.ts', [
    ['height of the triangle', '(ROOT3 / 2) * pitchMm', '(ROOT3 / 2) * 1.01 * pitchMm'],
    ['pitch diameter', '0.75 * height', '0.7575 * height'],
    ['root of the bolt', '(17 / 12) * height', '(17 / 12) * 1.01 * height'],
    ['minor diameter of the hole', '1.25 * height', '1.2625 * height'],
    ['stress area, metric', '(d2Mm + d3Mm) / 2 :', '((d2Mm + d3Mm) / 2) * 1.005 :'],
    ['stress area, Unified', '0.9743 * pitchMm', '0.9743 * 1.01 * pitchMm'],
    ['area of a circle', '(Math.PI / 4) * across', '(Math.PI / 4) * 1.01 * across'],
  ]),
  ...of('fastener/thread-unified.ts', [['numbered sizes', '(0.06 + 0.013 * n)', '(0.06 + 0.01313 * n)']]),
  ...of('fastener/tightening.ts', [
    ['plastic torsion', '1.5 * (thread.d2Mm', '1.515 * (thread.d2Mm'],
    ['helix', 'Math.atan(pitchMm / (Math.PI * d2Mm))', 'Math.atan((1.01 * pitchMm) / (Math.PI * d2Mm))'],
    ['flank angle', 'muThread / Math.cos(Math.PI / 6)', '(1.01 * muThread) / Math.cos(Math.PI / 6)'],
    ['reduced stress', '1 + 3 * twist * twist', '1 + 3.03 * twist * twist'],
    ['thread’s lever', '(thread.d2Mm / 2) * threadSlope', '(thread.d2Mm / 2) * 1.01 * threadSlope'],
    ['head’s lever', '(headFrictionMm / 2) * muHead', '(headFrictionMm / 2) * 1.01 * muHead'],
    ['mean diameter under the head', '(headBearingMm + holeMm) / 2', '((headBearingMm + holeMm) / 2) * 1.01'],
    ['share of yield', 'parts.utilisation ?? 0.9', 'parts.utilisation ?? 0.909'],
    ['waist', '(Math.PI / 4) * waistMm * waistMm', '(Math.PI / 4) * 1.01 * waistMm * waistMm'],
    ['nut factor it amounts to', 'k: (torqueNm * 1000)', 'k: (torqueNm * 1010)'],
  ]),
  ...of('fastener/head.ts', [
    ['head of M8', '[8, 11.6, 8.4, 9, 10]', '[8, 11.716, 8.4, 9, 10]'],
    ['hole of M8', '[8, 11.6, 8.4, 9, 10]', '[8, 11.6, 8.4, 9.09, 10]'],
    ['head of M12', '[12, 16.6, 13, 13.5, 14.5]', '[12, 16.77, 13, 13.5, 14.5]'],
    ['inch head, washer face', 'across * 0.95 * 25.4', 'across * 0.9595 * 25.4'],
    ['inch head of 3/8', '[3 / 8, 9 / 16, 13 / 32]', '[3 / 8, 9.09 / 16, 13 / 32]'],
    ['inch hole of 3/8', '[3 / 8, 9 / 16, 13 / 32]', '[3 / 8, 9 / 16, 13.13 / 32]'],
    ['inch head of 1/2', '[1 / 2, 3 / 4, 9 / 16]', '[1 / 2, 3.03 / 4, 9 / 16]'],
  ]),
  ...of('fastener/friction.ts', [
    ['friction class A', 'A: { low: 0.04, high: 0.1 }', 'A: { low: 0.0404, high: 0.1 }'],
    ['friction class B', 'B: { low: 0.08, high: 0.16 }', 'B: { low: 0.0808, high: 0.16 }'],
    ['friction class C', 'C: { low: 0.14, high: 0.24 }', 'C: { low: 0.14, high: 0.2424 }'],
    ['friction class D', 'D: { low: 0.2, high: 0.35 }', 'D: { low: 0.202, high: 0.35 }'],
    ['nut factor, dry', "received', k: 0.2,", "received', k: 0.202,"],
    ['nut factor, lubricated', "condition: 'lubricated', k: 0.15,", "condition: 'lubricated', k: 0.1515,"],
    ['scatter of a dry torque', 'torque_dry: { plusMinusPct: 35', 'torque_dry: { plusMinusPct: 35.35'],
    ['tightening factor', '(1 + share) / (1 - share)', '(1.01 * (1 + share)) / (1 - share)'],
  ]),
  ...of('fastener/strength.ts', [
    ['8.8 to M16, tensile', '[16, 800, 640, 580]', '[16, 808, 640, 580]'],
    ['8.8 to M16, yield', '[16, 800, 640, 580]', '[16, 800, 646, 580]'],
    ['8.8 to M16, proof', '[16, 800, 640, 580]', '[16, 800, 640, 586]'],
    ['8.8 above M16, yield', '[39, 830, 660, 600]', '[39, 830, 667, 600]'],
    ['10.9, tensile', '[39, 1040, 940, 830]', '[39, 1050, 940, 830]'],
    ['10.9, yield', '[39, 1040, 940, 830]', '[39, 1040, 949, 830]'],
    ['10.9, proof', '[39, 1040, 940, 830]', '[39, 1040, 940, 838]'],
    ['12.9, yield', '[39, 1220, 1100, 970]', '[39, 1220, 1111, 970]'],
    ['12.9, proof', '[39, 1220, 1100, 970]', '[39, 1220, 1100, 980]'],
    ['4.6, yield', '[39, 400, 240, 225]', '[39, 400, 242.4, 225]'],
    ['4.6, proof', '[39, 400, 240, 225]', '[39, 400, 240, 227.3]'],
    ['SAE 5, tensile', '[1, 120, 92, 85],', '[1, 121.2, 92, 85],'],
    ['SAE 8, proof', '[1.5, 150, 130, 120]', '[1.5, 150, 130, 121.2]'],
    ['ksi', 'KSI = 6.894757293168361', 'KSI = 6.9637'],
    ['stainless 70, yield', "'70': [700, 450]", "'70': [700, 454.5]"],
    ['stainless 80, yield', "'80': [800, 600]", "'80': [800, 606]"],
    [
      'ultimate load',
      "loadOf(threadGiven, grade, 'rmMPa')",
      "1.01 * Number(loadOf(threadGiven, grade, 'rmMPa'))",
    ],
  ]),
  ...of('fastener/judge.ts', [
    ['lightest share of yield', 'LEAST_SHARE = 0.14', 'LEAST_SHARE = 0.1414'],
    ['limit far off', 'const FAR = 0.5', 'const FAR = 0.505'],
    ['lightest that is printed for a seal', 'lowest: 0.0484', 'lowest: 0.04888'],
    ['heaviest that is printed for a seal', 'highest: 0.2847', 'highest: 0.28755'],
    ['light for a seal', 'least: 0.04,', 'least: 0.0404,'],
    ['heavy for a seal', 'most: 0.45', 'most: 0.4545'],
    ['full use before an angle', '0.9 * usual.low.torqueNm', '0.909 * usual.low.torqueNm'],
    ['more than full use', '1.05 * ends.fullNm', '1.0605 * ends.fullNm'],
    ['share of breaking', 'grade.yieldMPa / grade.rmMPa', '(1.01 * grade.yieldMPa) / grade.rmMPa'],
  ]),
  ...of('fastener/nut.ts', [
    ['nut class 8 to M10', '[10, 870]', '[10, 878.7]'],
    ['nut class 10 to M10', '[10, 1040]', '[10, 1050.4]'],
    ['nut’s proof load', 'proofMPa * thread.stressAreaMm2', '1.01 * proofMPa * thread.stressAreaMm2'],
  ]),
  ...of('fastener/engagement.ts', [
    ['tan 30°', 'TAN30 = 0.57735', 'TAN30 = 0.5831'],
    ['bolt’s shear area', '(Math.PI / pitchMm) * D1MaxMm', '(1.01 * Math.PI / pitchMm) * D1MaxMm'],
    ['hole’s shear area', '(Math.PI / pitchMm) * dMinMm', '(1.01 * Math.PI / pitchMm) * dMinMm'],
    ['shear of the bolt’s thread', 'BOLT_SHEAR_RATIO = 0.6', 'BOLT_SHEAR_RATIO = 0.606'],
    ['length for a strong bolt', '1.2 * lengthForBoltFirstMm', '1.212 * lengthForBoltFirstMm'],
    ['length of equal strength', '(2 * thread.stressAreaMm2)', '(2.02 * thread.stressAreaMm2)'],
    ['strength ratio J', '(boltPerMm * grade.rmMPa) /', '(1.01 * boltPerMm * grade.rmMPa) /'],
  ]),
  ...of('fastener/materials.ts', [
    ['shear of grey iron', "EN-GJL-250', 250, 225", "EN-GJL-250', 250, 227.3"],
    ['shear of die cast aluminium', "pressure die cast', 240, 140", "pressure die cast', 240, 141.4"],
    ['shear of gravity cast aluminium', "gravity cast', 180, 110", "gravity cast', 180, 111.1"],
    ['shear of wrought aluminium', "AlMgSi1', 290, 200", "AlMgSi1', 290, 202"],
    ['reserve of castings', 'cast: 0.7,', 'cast: 0.707,'],
    ['reserve of others', 'other: 0.85,', 'other: 0.8585,'],
  ]),
  ...of('fastener/tolerance.ts', [
    ['deviation g', '15 + 11 * pitchMm', '15.15 + 11.11 * pitchMm'],
    ['Td', '180 * pitchMm ** (2 / 3)', '181.8 * pitchMm ** (2 / 3)'],
    ['Td2', '90 * pitchMm ** 0.4', '90.9 * pitchMm ** 0.4'],
    ['TD1', '230 * pitchMm ** 0.7', '232.3 * pitchMm ** 0.7'],
    ['TD1, fine pitches', '433 * pitchMm - 190', '450 * pitchMm - 190'],
    ['2A pitch tolerance', '0.015 * third(pitch)', '0.01515 * third(pitch)'],
    ['2A allowance', '0.3 * td2', '0.303 * td2'],
    ['2A major tolerance', '0.06 * third(pitch)', '0.0606 * third(pitch)'],
    ['2B minor tolerance', '0.25 * pitch - 0.4', '0.2525 * pitch - 0.4'],
    ['2B pitch tolerance', '1.3 * td2', '1.313 * td2'],
  ]),
  ...of('fastener/inserts.ts', [
    ['installed, least', 'nominalMm - 0.75 * pitchMm\n', 'nominalMm - 0.7575 * pitchMm\n'],
    ['installed, most', 'nominalMm - 0.5 * pitchMm', 'nominalMm - 0.505 * pitchMm'],
    ['set-down, most', '1.5 * pitchMm', '1.515 * pitchMm'],
    [
      'thread above an insert',
      'nominalMm + pitchMm,\n    drillDepthPlugMm',
      'nominalMm + 1.01 * pitchMm,\n    drillDepthPlugMm',
    ],
    ['drill, plug tap', 'nominalMm + 6 * pitchMm +', 'nominalMm + 6.06 * pitchMm +'],
    ['drill, bottoming tap', 'nominalMm + 4 * pitchMm,', 'nominalMm + 4.04 * pitchMm,'],
    ['tapped minor', '0.216506 * pitchMm', '0.21867 * pitchMm'],
    ['tapped pitch', '0.649519 * pitchMm', '0.65601 * pitchMm'],
    ['tapped major', '1.299038 * pitchMm', '1.31203 * pitchMm'],
  ]),
  ...of('fastener/angle.ts', [
    ['bolt’s stiffness', 'shankMm / shankArea + threadMm', '1.01 * (shankMm / shankArea) + threadMm'],
    ['modulus of steel', 'elasticModulusMPa = 205_000', 'elasticModulusMPa = 207_050'],
    ['preload by angle', '* angleDeg) / 360', '* angleDeg) / 363.6'],
    ['yield load', 'thread.stressAreaMm2 * grade.yieldMPa', '1.01 * thread.stressAreaMm2 * grade.yieldMPa'],
    ['turn of a third', 'angleDeg: 120', 'angleDeg: 121.2'],
    ['turn of two thirds', 'angleDeg: 240', 'angleDeg: 242.4'],
  ]),
  ...of('fastener/short-form.ts', [
    [
      'short form',
      '(figures.k * figures.dMm * figures.preloadN) / 1000',
      '(figures.k * figures.dMm * figures.preloadN) / 1010',
    ],
    ['preload of a torque', '(torqueNm * 1000) / (k * dMm)', '(torqueNm * 1010) / (k * dMm)'],
    ['settling', 'settlingPct = 5,', 'settlingPct = 5.05,'],
  ]),
  ...of('fastener/airframe-table.ts', [
    ['3/8-16 in tension', "'3/8-16': [160, 185", "'3/8-16': [161.6, 185"],
  ]),
  ...of('fastener/hole-fit.ts', [
    ['clearance at the bottom', '2 * thread.pitchMm', '2.02 * thread.pitchMm'],
    ['least engagement', '1.5 * thread.dMm', '1.515 * thread.dMm'],
  ]),
  ...of('wrench/lever.ts', [
    [
      'lever of an adapter',
      '(wrenchMm + adapterMm * along) / wrenchMm',
      '(wrenchMm + 1.01 * adapterMm * along) / wrenchMm',
    ],
    ['degrees', '(angleDeg * Math.PI) / 180', '(angleDeg * Math.PI) / 181.8'],
  ]),
  ...of('wrench/deviation.ts', [
    ['deviation', '(100 * (shown - reference)) / reference', '(101 * (shown - reference)) / reference'],
    ['deviation permitted', '? 6 : 4', '? 6 : 4.04'],
    ['test point at 60 %', 'tool.maxNm * 0.6', 'tool.maxNm * 0.606'],
    ['test point at 20 %', 'tool.maxNm * 0.2', 'tool.maxNm * 0.202'],
    ['coarsest step', '/ 100 / 4', '/ 101 / 4'],
  ]),
  ...of('measure/cylinders.ts', [
    ['swept volume', '((Math.PI / 4) * diameterMm ** 2', '((Math.PI / 4) * 1.01 * diameterMm ** 2'],
    ['compression ratio', 'judge((swept + left) / left', 'judge((1.01 * swept + left) / left'],
  ]),
  ...of('measure/clearances.ts', [
    ['bearing from housing and shell', '2 * parts.shellMm', '2.02 * parts.shellMm'],
    ['ring gap by rule', 'share = 0.004', 'share = 0.00404'],
    ['bearing clearance by rule', 'share = 0.001)', 'share = 0.00101)'],
  ]),
  ...of('measure/bores.ts', [['flatness', 'span * limitPerLength', '1.01 * span * limitPerLength']]),
  ...of('measure/shims.ts', [
    ['valve shim', 'oldMm + (measuredMm - aim(target))', 'oldMm + 1.01 * (measuredMm - aim(target))'],
    ['thrust shim', 'measuredTotalMm - aim(target)', '1.01 * measuredTotalMm - aim(target)'],
    ['timing shim', '(targetDeg - readDeg) / perMm', '(1.01 * (targetDeg - readDeg)) / perMm'],
  ]),
]
