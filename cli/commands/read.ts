/** halfshaft read BUILD --between A B */
import { analyse } from '../../core/analyse.ts';
import { answerStore, askNetwork } from '../../core/car/ask-network.ts';
import { pointNamed } from '../../core/car/point-named.ts';
import { realise } from '../../core/car/realise.ts';
import { drawTable } from '../../core/chance/draw-table.ts';
import { printValue } from '../../core/quantity/print-quantity.ts';
import { readQuantity } from '../../core/quantity/read-quantity.ts';
import { highVoltage } from '../../core/topics/high-voltage/study.ts';
import { noSuch } from '../no-such.ts';
import { openBuild } from '../open-build.ts';
import { stateFrom } from '../state-options.ts';
import type { StateOptions } from '../state-options.ts';
import type { Terminal } from '../terminal.ts';
import { seedOption, wholeNumber } from '../whole-number.ts';
import { words } from '../../catalogue/words.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options extends StateOptions { readonly between: readonly string[]; readonly meter: string; readonly draws: string; readonly seed: string; readonly json?: boolean }

export function read(given: string | undefined, options: Options, { print }: Terminal): void {
  // a build named behind the two points is taken for a third one
  const [first, second, third] = options.between;
  const path = given ?? third;
  if (path === undefined) throw new WrongCall('Name a build folder, such as: halfshaft read my-van --between M1.pos chassis.');
  if (first === undefined || second === undefined || options.between.length !== (given === undefined ? 3 : 2)) throw new WrongCall('--between expects two points, such as --between M1.pos chassis.');
  const draws = wholeNumber(options.draws, '--draws', 0, 10_000);
  const meter = readQuantity(options.meter, 'resistance', 'meter');
  if (!meter.ok) throw new WrongCall(`--meter ${options.meter}: expected ${meter.problem.expected}.`);
  const { ask, car, prepared, build } = analyse(openBuild(path).text, words, { only: [] });
  const [a, b] = [first, second].map((point) => pointNamed(point, (name) => ask.points.includes(name))) as [string, string];
  for (const point of [a, b]) {
    if (!ask.points.includes(point)) throw noSuch('point', point, ask.points, `halfshaft points ${path} lists all.`);
  }
  const state = stateFrom(options, car);
  const reading = ask.meter(state, a, b, meter.value.nominal);
  if (reading.outcome === 'failed') throw new WrongCall(`The network has no operating point in this state: ${reading.why}`);

  const table = drawTable([...build.quantities.values()], Math.max(1, draws), seedOption(options.seed));
  const drawn: number[] = [];
  // of the draws alone: the car of the file is asked again below
  const store = answerStore();
  for (let draw = 0; draw < draws; draw++) {
    const there = askNetwork(realise(prepared, table.valueOf(draw)), store).meter(state, a, b, meter.value.nominal);
    if (there.outcome === 'reads') drawn.push(there.voltage);
  }
  drawn.sort((x, y) => x - y);
  const at = (share: number): number | undefined => drawn[Math.min(drawn.length - 1, Math.max(0, Math.round(share * (drawn.length - 1))))];
  const [low, high] = [at(0.025), at(0.975)];
  if (options.json === true) {
    print(`${JSON.stringify({ between: [a, b], state, reads: { value: reading.voltage, low: low ?? null, high: high ?? null, unit: 'V' }, floating: reading.isFloating, draws: drawn.length }, null, 2)}\n`);
    return;
  }
  const volts = (value: number): string => printValue(value, 'voltage');
  const band = low === undefined || high === undefined ? '' : volts(low) === volts(high) ? ', the same to this precision in all draws' : `, 95 % of draws between ${volts(low)} and ${volts(high)}`;
  print(`${a} to ${b}: ${volts(reading.voltage)}${band}\n`);
  const stalled = options.state === undefined ? undefined : highVoltage.study(car, ask).results.precharge.precharges.find((result) => result.mode === options.state && result.timeToFull === undefined);
  if (stalled) print(`In mode ${stalled.mode} precharge from empty never finishes: it stops at ${volts(stalled.endVoltage)} (halfshaft precharge shows it). The reading above is for capacitors that are full already.\n`);
  if (reading.isFloating) print('The two points are joined by nothing but the meter: it settles near 0 V, whatever the voltage between them was. That is no proof that either is dead.\n');
  print('A model never proves that a circuit is dead; only a meter does, tried on a known source before and after.\n');
}
