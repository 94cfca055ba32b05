/**
 * Waisted bolts: shank diameter 0.9·d3 and its area, as printed in a guide to ultrasonic inspection of fasteners, page 31.
 *
 * Found. mm and mm²; d3 beside them is reckoned by ISO 68-1.
 */
export const WAISTS: [thread: string, d3: number, waistMm: number, areaMm2: number][] = [
  ['M4x0.7', 3.1412, 2.83, 6.28],
  ['M5x0.8', 4.0185, 3.62, 10.3],
  ['M6x1', 4.7731, 4.3, 14.5],
  ['M8x1.25', 6.4664, 5.82, 26.6],
  ['M10x1.5', 8.1597, 7.34, 42.4],
  ['M14x2', 11.5463, 10.4, 84.8],
  ['M16x2', 13.5463, 12.2, 117],
  ['M20x2.5', 16.9328, 15.2, 182],
  ['M22x2.5', 18.9328, 17.0, 228],
  ['M24x3', 20.3194, 18.3, 263],
  ['M8x1', 6.7731, 6.1, 29.2],
  ['M10x1.25', 8.4664, 7.62, 45.6],
  ['M12x1.25', 10.4664, 9.42, 69.7],
  ['M12x1.5', 10.1597, 9.14, 65.7],
  ['M16x1.5', 14.1597, 12.74, 128],
  ['M18x1.5', 16.1597, 14.54, 166],
  ['M22x1.5', 20.1597, 18.14, 259],
  ['M24x2', 21.5463, 19.39, 295],
]
