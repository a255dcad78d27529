/** halfshaft spice BUILD */
import { analyse } from '../../core/analyse.ts';
import { wireCar } from '../../core/car/wire-car.ts';
import { spiceNetlist } from '../../core/solve/spice-netlist.ts';
import { openBuild } from '../open-build.ts';
import { stateFrom } from '../state-options.ts';
import type { StateOptions } from '../state-options.ts';
import { words } from '../../catalogue/words.ts';

export function spice(path: string, options: StateOptions): void {
  const { car } = analyse(openBuild(path).text, words, { only: [] });
  process.stdout.write(spiceNetlist(wireCar(car, stateFrom(options, car)).network).text);
}
