/** An option that must be a whole number between two limits. */
import { WrongCall } from './wrong-call.ts';

export function wholeNumber(text: string, option: string, least: number, most: number): number {
  const value = Number(text);
  if (!/^-?\d+$/.test(text) || value < least || value > most) throw new WrongCall(`${option} ${text}: expected a whole number from ${least} to ${most}.`);
  return value;
}
