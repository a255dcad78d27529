/** Borders of the voltage classes, direct voltage between two points [V]: [un-r100] clause 2, [iso-6469-3]. */

/** Up to this class A, above it class B: what can kill. */
export const CLASS_A_HIGHEST = 60;
/** Up to this class B. */
export const CLASS_B_HIGHEST = 1500;
