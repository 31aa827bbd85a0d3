// Sizes of the inch-pound units. The first three are exact by definition, the others follow from them
// (NIST Special Publication 811, appendix B).

/** Newtons in one pound-force. */
export const NEWTONS_PER_LBF = 4.4482216152605;

/** Kilograms in one pound. */
export const KG_PER_LB = 0.45359237;

/** Metres in one foot. */
export const METRES_PER_FOOT = 0.3048;

/** Newton metres in one pound-force inch. */
export const NEWTON_METRES_PER_LBF_IN = NEWTONS_PER_LBF * 0.0254;

/** Square millimetres in one square inch; exact. */
export const MM2_PER_SQUARE_INCH = 645.16;

/** Cubic millimetres in one cubic inch; exact. */
export const MM3_PER_CUBIC_INCH = 16387.064;

/** Fourth powers of a millimetre in one of an inch; exact. */
export const MM4_PER_INCH_TO_THE_FOURTH = 416231.4256;

/** Megapascals in one pound-force per square inch. */
export const MPA_PER_PSI = NEWTONS_PER_LBF / MM2_PER_SQUARE_INCH;

/** Kilowatts in one horsepower of 550 ft·lbf/s. */
export const KW_PER_HP = (550 * METRES_PER_FOOT * NEWTONS_PER_LBF) / 1000;

/** Kilograms per cubic metre in one pound per cubic inch. */
export const KG_M3_PER_LB_PER_CUBIC_INCH = KG_PER_LB / 0.0254 ** 3;
