/**
 * Symbols after IEC 60617, drawn by hand from the well-known shapes. Each about its own 0, 0; those in a line have their terminals
 * `reachOf` to the left and right. Switches are drawn in the position that they have.
 */
import type { ReactElement } from 'react';
import { BreakContact, Coil, Contactor, Disconnector, HandSwitch, Inlet, MakeContact, Pins } from './contacts.tsx';
import { AlternatingToDirect, Compressor, DirectToAlternating, DirectToDirect, Drive, Heater, IsolationMonitor, Lamp, Load, Pump } from './machines.tsx';
import { Battery, Chassis, Diode, Fuse, PrechargeResistor, PyroFuse, Resistor, Shunt } from './passive.tsx';
import type { SymbolName } from './symbol-name.ts';

export interface SymbolProps {
  /** a colour of the palette */
  readonly stroke: string;
  /** of its lines [mm] */
  readonly width: number;
  /** contacts: their position; absent: as at rest */
  readonly isClosed?: boolean | undefined;
}

const Nothing = (): ReactElement => <g />;
/** A piece of a bar; where much hangs on it, its sheet draws it as long as it has to be. */
const Bar = ({ stroke }: SymbolProps): ReactElement => <rect x={-2} y={-0.9} width={4} height={1.8} fill={stroke} />;

const drawn: Readonly<Record<SymbolName, (props: SymbolProps) => ReactElement>> = {
  battery: Battery, fuse: Fuse, pyro_fuse: PyroFuse, contactor: Contactor, make_contact: MakeContact, break_contact: BreakContact, switch: HandSwitch, disconnector: Disconnector, coil: Coil,
  resistor: Resistor, precharge_resistor: PrechargeResistor, shunt: Shunt, diode: Diode, pins: Pins, inlet: Inlet, lamp: Lamp, pump: Pump, heater: Heater,
  compressor: Compressor, dc_dc: DirectToDirect, ac_dc: AlternatingToDirect, dc_ac: DirectToAlternating, drive: Drive, isolation_monitor: IsolationMonitor, chassis: Chassis, load: Load,
  bar: Bar,
  // its box is all there is
  unit: Nothing, none: Nothing,
};

/** @param turn  degrees clockwise; 90 puts the left terminal on top */
export function Symbol({ name, x, y, turn = 0, ...props }: SymbolProps & { readonly name: SymbolName; readonly x: number; readonly y: number; readonly turn?: number }): ReactElement {
  const Drawn = drawn[name];
  return <g transform={`translate(${x} ${y})${turn === 0 ? '' : ` rotate(${turn})`}`}><Drawn {...props} /></g>;
}
