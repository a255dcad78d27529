/** A point as people name it: the bodywork is `chassis`. */
import { REFERENCE_NODE } from '../solve/element.ts';

const BODY = /^(?:clean metal of )?(?:the )?(?:body(?:work)?|chassis|frame|earth|ground|gnd|(?:chassis|body) ground|ground of the body|body metal)$/i;

/** @param isPoint  names that the car has; one that it has is never taken for another word */
export function pointNamed(typed: string, isPoint: (name: string) => boolean): string {
  const name = typed.trim();
  return !isPoint(name) && BODY.test(name) ? REFERENCE_NODE : name;
}
