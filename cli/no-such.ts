/** A name that is not there. */
import { nearest } from '../core/quantity/nearest-spelling.ts';
import { WrongCall } from './wrong-call.ts';

/** @param more  how to see all that are there, as a sentence */
export function noSuch(what: string, name: string, names: readonly string[], more: string): WrongCall {
  const close = nearest(name, names);
  return new WrongCall(`There is no ${what} ${name}${close === undefined ? '.' : `; did you mean ${close}?`} ${more}`);
}
