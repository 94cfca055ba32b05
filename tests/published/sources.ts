/**
 * Every published source that figures of `shared/` and of the checks rest on, so that it can be found again.
 *
 * `cited` is what stands in the text; title and edition are from memory where the text does not give them. What cannot be
 * found again by its citation says `memory` where it stands, and is not on this list.
 */
export interface PublishedSource {
  cited: string
  kind: 'standard' | 'report' | 'book' | 'article'
  title: string
  /** Year, or edition and year. */
  edition: string
}

const listed = (kind: PublishedSource['kind'], rows: [cited: string, title: string, edition: string][]) =>
  rows.map(([cited, title, edition]): PublishedSource => ({ cited, kind, title, edition }))

export const SOURCES: readonly PublishedSource[] = [
  ...listed('standard', [
    ['ISO 3', 'Preferred numbers: series of preferred numbers', '1973'],
    ['ISO 68-1', 'General purpose screw threads: basic and design profiles, metric', '1998'],
    ['ISO 261', 'Metric screw threads: general plan', '1998'],
    ['ISO 262', 'Metric screw threads: selected sizes', '1998'],
    ['ISO 273', 'Fasteners: clearance holes for bolts and screws', '1979'],
    ['ISO 724', 'Metric screw threads: basic dimensions', '1993'],
    ['ISO 888', 'Fasteners: nominal lengths of bolts, screws and studs', '2012'],
    [
      'ISO 898-1',
      'Mechanical properties of fasteners: bolts, screws and studs',
      '2013; proof loads as of 1999',
    ],
    ['ISO 898-2', 'Mechanical properties of fasteners: nuts with specified property classes', '1992, 2012'],
    ['ISO 965-1', 'Metric screw threads, tolerances: principles and basic data', '2013'],
    ['ISO 965-2', 'Metric screw threads, tolerances: limits of sizes', '1998'],
    ['ISO 3506-1', 'Mechanical properties of corrosion-resistant stainless fasteners: bolts', '2009'],
    ['ISO 3508', 'Thread run-outs for fasteners', '1976'],
    ['ISO 4014', 'Hexagon head bolts, product grades A and B', '2011'],
    ['ISO 6789', 'Assembly tools for screws and nuts: hand torque tools', '2003'],
    ['ISO 6789-1', 'Hand torque tools: minimum declaration of conformance', '2017'],
    ['ISO 6789-2', 'Hand torque tools: calibration and uncertainty', '2017'],
    ['VDI 2230', 'Systematic calculation of highly stressed bolted joints, Part 1', '2001, 2003, 2015'],
    ['DIN 1691', 'Grey cast iron', '1985'],
    ['DIN 1693', 'Spheroidal graphite cast iron', '1973'],
    ['DIN 8140', 'Wire thread inserts for ISO metric screw threads', '1999'],
    ['EN 573-3', 'Wrought aluminium: chemical composition', '2013'],
    ['EN 755-2', 'Extruded aluminium rod, tube and profiles: mechanical properties', '2016'],
    ['EN 1561', 'Founding: grey cast irons', '2011'],
    ['EN 1563', 'Founding: spheroidal graphite cast irons', '2012'],
    ['EN 1706', 'Aluminium castings: composition and mechanical properties', '2010'],
    ['EN 1982', 'Copper and copper alloys: ingots and castings', '2008'],
    ['EN 10025-2', 'Hot rolled structural steels: non-alloy', '2004'],
    ['SAE J429', 'Mechanical and material requirements for externally threaded fasteners', '2014'],
    ['ASME B1.1', 'Unified inch screw threads', '2003'],
    ['ASME B18.2.1', 'Square, hex, heavy hex and other bolts and screws, inch', '2012'],
    ['ASME B18.2.8', 'Clearance holes for bolts, screws and studs', '1999'],
    ['ASME B18.29.8M', 'Helical coil screw thread inserts, metric', '2005'],
    ['ASME PCC-1', 'Pressure boundary bolted flange joint assembly, table 4, legacy pattern', '2010'],
    ['RCSC', 'Specification for Structural Joints Using High-Strength Bolts', '2014'],
    ['NASM33537', 'Insert, screw thread, helical coil, inch series: assembly', '2000'],
    ['FED-STD-H28', 'Screw-thread standards for federal services; section 2B, Unified threads', '1991'],
    ['NASA-STD-5020A', 'Requirements for threaded fastening systems in spaceflight hardware', '2018'],
    ['RFC 8017', 'PKCS #1: RSA cryptography specifications version 2.2', '2016'],
    ['RFC 8032', 'Edwards-curve digital signature algorithm (EdDSA)', '2017'],
    ['RFC 9162', 'Certificate transparency version 2.0: Merkle trees and their proofs', '2021'],
    ['RFC 8785', 'JSON canonicalization scheme', '2020'],
    ['FIPS 180-2', 'Secure hash standard', '2002'],
    ['FIPS 180-4', 'Secure hash standard', '2015'],
    ['SI Brochure', 'The International System of Units', '9th edition, 2019'],
  ]),
  ...listed('report', [
    ['NIST SP 800-63B', 'Digital identity guidelines: authentication and lifecycle management', '2017'],
    ['NIST SP 811', 'Guide for the use of the International System of Units', '2008'],
    ['NIST StRD', 'Statistical reference datasets, univariate summary statistics', '1999'],
    ['NSTS 08307', 'Criteria for preloaded bolts', 'revision A, 1998'],
    [
      'FAA AC 43.13-1B',
      'Acceptable methods, techniques and practices: aircraft inspection and repair',
      '1998',
    ],
    ['TM 1-1500-204-23-9', 'General aircraft maintenance: tools and ground support equipment', '1992'],
    ['TM 9-254', 'General maintenance procedures for fire control materiel', '1982'],
    ['NAVEDTRA 14315', 'Aviation structural mechanic, training course', '2002'],
  ]),
  ...listed('book', [
    ['Shigley and Mischke', 'Mechanical Engineering Design, McGraw-Hill', '5th edition, 1989'],
    ['Shigley’s Mechanical Engineering Design', 'Budynas and Nisbett, McGraw-Hill', '10th edition, 2015'],
    ['Machinery’s Handbook', 'Industrial Press: torque and tension in fasteners', '26th edition, 2000'],
    [
      'Bickford',
      'Introduction to the Design and Behavior of Bolted Joints: non-gasketed joints, CRC Press',
      '4th edition, 2008',
    ],
    ['Dubbel', 'Taschenbuch für den Maschinenbau, Springer', '18th edition, 1995'],
    ['Guide to Ultrasonic Inspection of Fasteners', 'an instrument’s handbook, part 021-002-175', '2003'],
  ]),
  ...listed('article', [
    ['Methods of Applying and Measuring Preload', 'in the public web, undated', 'read in 2026'],
    ['What Does the Nut Factor, ‘K’, Really Encompass?', 'in the public web', '15 November 2020'],
  ]),
]
