/**
 * The cautions, in full. They depend on what the pack can do: above 60 V DC a touch can kill; below it a short circuit burns. A pack whose
 * voltage is not known counts as the first.
 */
import type { VoltageClass } from '../../core/topics/pack/voltage-window.ts';

export interface CautionValues {
  readonly voltageClass: VoltageClass | undefined;
  /** highest voltage of the pack, highest short-circuit current, longest wait for the capacitors, with units; undefined: not known */
  readonly voltage: string | undefined; readonly shortCircuit: string | undefined; readonly wait: string | undefined;
  /** false: some capacitors have no bleeder */
  readonly isEmptied: boolean;
  /** a part of the car takes mains voltage */
  readonly hasMains: boolean;
  /** something in the car splits the pack by hand */
  readonly hasDisconnect: boolean;
}

export interface Caution { readonly title: string; readonly text: string }

export function cautionsFor(values: CautionValues): readonly Caution[] {
  const { voltageClass, voltage, wait, isEmptied, hasMains, hasDisconnect } = values;
  const off = hasDisconnect ? 'Pull the service disconnect' : 'Open whatever splits the pack';
  const capacitors = !isEmptied ? 'Some capacitors have no bleeder in the file: they count as charged for good.'
    : wait === undefined ? 'Wait for the capacitors as long as the makers of the parts say.' : `Wait for the capacitors: computed ${wait} or less to 60 V, if nothing is broken.`;
  return [
    { title: 'Qualified help.', text: 'Have somebody trained for electric vehicles look over the plan and be there for the work. Local codes, licensed people and inspection decide what may be built and driven, not this drawing.' },
    ...(voltageClass === 'A' ? lowVoltageDanger(values) : highVoltageDanger(values)),
    { title: 'Dead is what a meter shows.', text: 'A model never proves that a circuit is dead. Only a meter does, tried on a known source before and after, between every two points that hands will reach, and each of them to the chassis.' },
    { title: 'Gloves.', text: voltageClass === 'A'
      ? 'Dry insulating gloves rated for the voltage wherever hands reach between two terminals, and a face shield: here it is molten metal that hurts.'
      : `Insulating gloves rated for the voltage${voltage === undefined ? '' : ` (this pack: ${voltage} DC)`}, in date, looked over and blown up before each use, leather over them, and a face shield.` },
    { title: 'A second person.', text: 'Never alone. The other stands clear, knows how to switch everything off, how to pull you away without touching you, and how to call for help.' },
    { title: 'No jewellery.', text: 'No rings, watches, chains, belt buckles or pens. Insulated tools, laid in a tray and never on the battery.' },
    { title: 'Wheels off the ground.', text: 'Stands under the vehicle, wheels free, nobody before or behind it, whenever anything that can turn them is powered.' },
    { title: 'Lock-out.', text: `${off}, lock it away and keep the key in your pocket, hang a sign on the vehicle. ${capacitors} Then measure.` },
    { title: 'Modules stay live.', text: 'Nothing switches a cell off. Cover every terminal that is not being worked on, and leave one link of the chain open until the very last.' },
    { title: 'Fire.', text: 'A crushed or shorted cell burns again hours later. Work where the pack can get out of the building, keep the way clear, and leave these sheets where the fire crew finds them.' },
    ...(hasMains ? [{ title: 'Mains.', text: 'The charging side carries mains voltage, which kills whatever the pack does. Unplug at the wall before opening it; its wiring belongs to a licensed electrician.' }] : []),
  ];
}

function highVoltageDanger({ voltageClass, voltage }: CautionValues): readonly Caution[] {
  const reach = voltageClass === undefined ? 'The voltage of this pack is not known from the file: treat it as more than 60 V.' : `This pack reaches ${voltage ?? 'more than 60 V'} DC.`;
  const end = voltageClass === 'above B' ? ' That is more than 1500 V: nothing here was made for it. Do not build it.' : '';
  return [{ title: 'High voltage.', text: `${reach} Touching both of its ends, or one end and a fault, can kill; a short circuit throws an arc. Every orange cable and every open terminal counts as live.${end}` }];
}

function lowVoltageDanger({ voltage, shortCircuit }: CautionValues): readonly Caution[] {
  return [
    { title: 'Up to 60 V.', text: `This pack reaches ${voltage ?? 'up to 60 V'} DC, class A: by itself it counts as no shock hazard. Wet skin and open wounds change that, and a coil or motor switched off makes far more for a moment.` },
    { title: 'Burns.', text: `A short circuit drives ${shortCircuit === undefined ? 'thousands of amperes' : `up to ${shortCircuit}`} through a dropped spanner. It glows at once, welds itself fast and throws molten metal. Fuse close to the cells, cover bare terminals, shield the eyes.` },
  ];
}
