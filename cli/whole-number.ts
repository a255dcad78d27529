/** An option that must be a whole number between two limits. */
import { WrongCall } from './wrong-call.ts';

export function wholeNumber(text: string, option: string, least: number, most: number): number {
  const value = Number(text);
  if (!/^-?\d+$/.test(text) || value < least || value > most) throw new WrongCall(`${option} ${text}: expected a whole number from ${least} to ${most}.`);
  return value;
}

/** The start of the draws: any whole number of 32 bit. */
export function seedOption(text: string): number {
  return wholeNumber(text, '--seed', -2_147_483_648, 2_147_483_647);
}
