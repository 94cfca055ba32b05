/** What must be said beside an answer: one sentence each, kept apart from the codes that results carry. */
export const CAUTIONS = {
  maker_governs: 'The maker’s printed value counts, not what is computed here.',
  competent_person: 'A competent person must check a computed value before it is used on an engine.',
  default_head: 'A plain hexagon head is assumed. A flange or socket head changes the torque.',
  default_hole: 'A medium clearance hole is assumed. Measure it where it matters.',
  default_interpolated: 'Head and hole of this size are estimated from neighbouring sizes.',
  one_friction_for_both: 'Only one friction is entered; it is used for thread and head.',
  friction_dominates:
    'About nine tenths of a torque goes into friction, so the answer is only as exact as the friction.',
  low_friction_governs:
    'The torque is chosen for the lowest friction of the band, so that the bolt is not overstressed.',
  clean_threads: 'It holds for clean, undamaged threads, lubricated alike on the thread and under the head.',
  prevailing_torque: 'Add the running torque of a self-locking nut or insert.',
  near_yield: 'A share of yield above nine tenths leaves little for the load in service.',
  stainless_galls: 'Stainless seizes: tighten slowly, with lubricant, never by impact.',
  stainless_over_24: 'Above 24 mm the strength of this stainless class is by agreement only.',
  proof_from_yield:
    'No proof stress is standardised for stainless bolts; the stress at a lasting stretch of two thousandths is used.',
  lowest_of_ranges: 'This grade is weaker in some sizes; without a diameter the weakest range is given.',
  outside_standard_size:
    'The standard of this grade does not cover this size; its values are used all the same.',
  grade_other_system:
    'This grade and this thread belong to different systems, metric and inch. Read the head again.',
  hydrogen: 'Class 12.9 may crack late if plated or pickled.',
  thread_not_standard_size: 'This diameter is not in the ISO series; the geometry is computed all the same.',
  special_series: 'A special pitch: check the tap and the bolt against each other.',
  waisted: 'A waisted shank stretches and twists in its waist; keep to the maker’s procedure.',
  bolt_stronger:
    'Bolts are stronger than their minimum: for the bolt to break first, allow a fifth more length.',
  reserve_cast:
    'The hole’s strength is the typical one, and this casting may be weaker: only 70 % of it is counted on.',
  reserve_typical: 'The hole’s strength is typical for its material: only 85 % of it is counted on.',
  worn_hole: 'A worn or chased thread carries less than this.',
  long_engagement:
    'Beyond about two and a half diameters more length adds little: the first threads carry most.',
  insert_maker: 'The insert maker’s own pull-out figure counts before this one.',
  insert_below_coil: 'The bolt should pass the insert’s last coil by at least two pitches.',
  insert_short: 'The insert is too short for the bolt to break first.',
  engagement_rule:
    'Bolt grade or hole material is not entered, so the trade’s one and a half diameters are taken as the least engagement.',
  clearance_two_pitches: 'At least two pitches of clearance are wanted at the bottom.',
  protrudes: 'At least one full thread should stand out of a nut or a through hole.',
  fluid_in_hole: 'Oil or coolant in a blind hole cracks the casting. Blow it out and dry it.',
  shank_in_hole: 'The bolt’s shank would reach the thread and bottom there.',
  thread_length_assumed:
    'With the standard’s thread length the shank would reach the hole and clamp nothing. Measure the bolt’s thread.',
  past_yield:
    'This angle goes past yield: the elastic formula no longer holds. Keep to the maker’s procedure and its rules on reuse.',
  angle_after_snug: 'An angle counts only from a snug start; the first part of the turn closes the joint.',
  joint_stiffness_guess: 'The stiffness of the joint was entered by hand; a soft gasket changes the answer.',
  one_use: 'One-use: never fitted twice.',
} as const
export type CautionCode = keyof typeof CAUTIONS
