/**
 * The low-voltage and mechanical kinds. A new one is added here and nowhere else.
 */
import type { Kind } from '../part/kind.ts';
import { ballast } from './ballast.ts';
import { battery12v } from './battery-12v.ts';
import { canNode } from './can-node.ts';
import { canTermination } from './can-termination.ts';
import { connector } from './connector.ts';
import { controller } from './controller.ts';
import { diode } from './diode.ts';
import { fuse } from './fuse.ts';
import { groundStud } from './ground-stud.ts';
import { indicator } from './indicator.ts';
import { interlockContact } from './interlock-contact.ts';
import { load } from './load.ts';
import { pedal } from './pedal.ts';
import { pump } from './pump.ts';
import { relay } from './relay.ts';
import { splice } from './splice.ts';
import { switchKind } from './switch.ts';

export const lowVoltageKinds: readonly Kind[] = [
  battery12v, fuse, relay, switchKind, pedal, diode, load, pump, indicator, controller, canNode, canTermination, connector, splice, groundStud, interlockContact,
];

export const mechanicalKinds: readonly Kind[] = [ballast];
