/** The basic diameters of a 60° thread: what every other reckoning about it begins with. */

const ROOT3 = Math.sqrt(3)

/**
 * The basic diameters of a 60° thread, mm, from nominal diameter and pitch, mm.
 *
 * H = (√3/2)·P; d2 = d − (3/4)H, D1 = d − (5/4)H, d3 = d − (17/12)H. Stress area As = π/4·((d2 + d3)/2)² for
 * metric; Unified prints π/4·(D − 0.9743·P)². Source: ISO 68-1, ISO 724, ISO 898-1; ASME B1.1.
 */
export function profile(dMm: number, pitchMm: number, system: 'metric' | 'unified') {
  const height = (ROOT3 / 2) * pitchMm
  const d2Mm = dMm - 0.75 * height
  const d3Mm = dMm - (17 / 12) * height
  const across = system === 'metric' ? (d2Mm + d3Mm) / 2 : dMm - 0.9743 * pitchMm
  return { d2Mm, d3Mm, D1Mm: dMm - 1.25 * height, stressAreaMm2: (Math.PI / 4) * across * across }
}
