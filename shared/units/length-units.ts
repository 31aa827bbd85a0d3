/** The unit system a plan is shown and typed in. Inside, every length is mm. */
export type LengthUnits = 'in' | 'mm';
