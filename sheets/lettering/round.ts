/** A coordinate to a hundredth of a millimetre, so that drawings are the same on every machine and short. */
export const round = (value: number): number => Math.round(value * 100) / 100 + 0;
