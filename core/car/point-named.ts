/** A point as people name it: the bodywork is `chassis`. */
import { REFERENCE_NODE } from '../solve/element.ts';

const BODY = /^(?:the\s+)?(?:body|bodywork|body ground|earth|ground|gnd|chassis)$/i;

/** @param isPoint  names that the car has; one that it has is never taken for another word */
export function pointNamed(typed: string, isPoint: (name: string) => boolean): string {
  const name = typed.trim();
  return !isPoint(name) && BODY.test(name) ? REFERENCE_NODE : name;
}
