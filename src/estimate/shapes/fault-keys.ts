/** Why sizes can't be those of one bed, by the keys of the language's sentences. */
export type ShapeFaultKey =
  | 'fault.offsets-few'
  | 'fault.offsets-zero'
  | 'fault.offsets-count'
  | 'fault.spacings-zero'
  | 'fault.radii-few'
  | 'fault.radii-zero'
  | 'fault.sides'
  | 'fault.sides-flat'
  | 'fault.cut-length'
  | 'fault.cut-width'
  | 'fault.ring-inner'
