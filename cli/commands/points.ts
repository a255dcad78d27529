/** halfshaft points BUILD */
import { analyse } from '../../core/analyse.ts';
import { openBuild } from '../open-build.ts';
import { faint } from '../show/paint.ts';
import type { Terminal } from '../terminal.ts';
import { words } from '../../catalogue/words.ts';

export function points(path: string, options: { readonly json?: boolean }, { print }: Terminal): void {
  const { car, ask } = analyse(openBuild(path).text, words, { only: [] });
  const rows = ask.points.map((point) => {
    const [part = point, name = ''] = point.split('.');
    const port = car.parts.get(part)?.ports.find((candidate) => candidate.name === name);
    return { point, carries: port?.carries ?? (point === 'chassis' ? 'chassis' : 'inside'), meaning: port?.meaning ?? (point === 'chassis' ? 'bare metal of the vehicle' : 'a point inside the part') };
  });
  if (options.json === true) print(`${JSON.stringify(rows, null, 2)}\n`);
  else for (const { point, carries, meaning } of rows) print(`${point.padEnd(28)} ${carries.padEnd(13)} ${faint(meaning)}\n`);
}
