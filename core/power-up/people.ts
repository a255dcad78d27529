/** Who stands where while a step is done, by the harm that is near. */
import { gloveClassFor } from '../physics/glove-class.ts';
import type { Hazard, Phase } from './step.ts';

export interface Crew { readonly packVoltage: number; readonly disconnects: readonly string[]; readonly stops: readonly string[] }

export function peopleFor(hazard: Hazard, phase: Phase, { packVoltage, disconnects, stops }: Crew): string {
  const pull = phase === 'limited_source' ? 'at what switches the source off, hand on it' : disconnects.length > 0 ? `beside ${disconnects.join(' or ')}, hand free` : 'beside the joint that parts the string, tool in hand';
  const gloves = gloveClassFor(packVoltage)?.name;
  switch (hazard) {
    case 'none': return phase === 'prepare' ? 'Both, together.' : 'One person; nothing here is live.';
    case 'class_a': return phase === 'limited_source' ? `One at the meter, eye protection on; the other ${pull}.` : phase === 'insulation' ? 'One at the module, eye protection on; the other in sight.' : 'One at the meter, one at the key and the battery post. Nobody at the high-voltage parts.';
    case 'class_b': return packVoltage <= 60 ? `One at the meter; the other ${pull}. Eye protection: it burns and welds.` : `One at the meter, one hand in the pocket, gloves class ${gloves ?? 'for this voltage'} and face shield; the other ${pull}, eyes on the first. Nobody touches the vehicle.`;
    case 'moving': return `One at the controls, foot on the brake${stops.length > 0 ? `, a hand on ${stops.join(' or ')}` : ''}; the other ${pull}, clear of wheels and shafts. Nobody before, behind or under the vehicle.`;
  }
}
