/** What a word of lubrication or hole material can mean: the entries of the vocabulary. */
export type Lubrication =
  | 'dry'
  | 'oil'
  | 'grease'
  | 'paste'
  | 'anti_seize'
  | 'threadlocker'
  | 'zinc_plated'
  | 'wax'

export type HoleMaterialId =
  | 'cast_iron'
  | 'ductile_iron'
  | 'cast_aluminium'
  | 'cast_aluminium_gravity'
  | 'cast_aluminium_heat_treated'
  | 'wrought_aluminium'
  | 'wrought_aluminium_strong'
  | 'steel'
  | 'steel_500'
  | 'steel_700'
  | 'bronze'
