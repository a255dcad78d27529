/** The part kinds of the high-voltage side, in the order of the reference page: battery first, then along the current. */
import type { Kind } from '../part/kind.ts';
import { batteryModule } from './battery-module.ts';
import { benchSource } from './bench-source.ts';
import { chargeInlet } from './charge-inlet.ts';
import { charger } from './charger.ts';
import { contactor } from './contactor.ts';
import { dcdc } from './dcdc.ts';
import { driveUnit } from './drive-unit.ts';
import { hvCompressor } from './hv-compressor.ts';
import { hvFuse } from './hv-fuse.ts';
import { hvHeater } from './hv-heater.ts';
import { inverter } from './inverter.ts';
import { isolationMonitor } from './isolation-monitor.ts';
import { junction } from './junction.ts';
import { prechargeConverter } from './precharge-converter.ts';
import { prechargeResistor } from './precharge-resistor.ts';
import { pyroFuse } from './pyro-fuse.ts';
import { serviceDisconnect } from './service-disconnect.ts';
import { shunt } from './shunt.ts';
import { stud } from './stud.ts';

export const highVoltageKinds: readonly Kind[] = [
  batteryModule, hvFuse, pyroFuse, serviceDisconnect, contactor, prechargeResistor, prechargeConverter, shunt, junction, stud,
  isolationMonitor, inverter, driveUnit, dcdc, charger, chargeInlet, hvHeater, hvCompressor, benchSource,
];
