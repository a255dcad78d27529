/** halfshaft spice BUILD */
import { analyse } from '../../core/analyse.ts';
import { wireCar } from '../../core/car/wire-car.ts';
import { spiceNetlist } from '../../core/solve/spice-netlist.ts';
import { openBuild } from '../open-build.ts';
import { stateFrom } from '../state-options.ts';
import type { StateOptions } from '../state-options.ts';
import type { Terminal } from '../terminal.ts';
import { words } from '../../catalogue/words.ts';

export function spice(path: string, options: StateOptions, { print }: Terminal): void {
  const { car } = analyse(openBuild(path).text, words, { only: [] });
  print(spiceNetlist(wireCar(car, stateFrom(options, car)).network).text);
}
