/** Whether two ports can be joined, and what would be natural to join them with. */
import type { Outline } from '../../study/outline.ts';

type Port = Outline['parts'][number]['ports'][number];
type Joining = Pick<Outline, 'parts' | 'runs' | 'stock'>;

export function portAt(point: string, { parts }: Pick<Outline, 'parts'>): Port | undefined {
  for (const part of parts) for (const port of part.ports) if (port.point === point) return port;
  return undefined;
}

/** Why a port cannot take the end of a run; undefined when it can. */
export function whyNot(point: string, outline: Joining, other?: string): string | undefined {
  const port = portAt(point, outline);
  if (!port) return point === 'chassis' ? 'The chassis is no port: join to a ground stud that stands on it.' : `${point} is no port.`;
  if (point === other) return 'A run joins two different ports.';
  const on = outline.runs.filter(({ from, to }) => from === point || to === point).map(({ name }) => name);
  if (port.free <= 0) return `${point} has no room: ${on.length === 0 ? 'it takes no run' : `${on.join(', ')} ${on.length === 1 ? 'is' : 'are'} on it`}.`;
  return undefined;
}

/** What is possible but deserves a second look. */
export function doubtAbout(from: string, to: string, outline: Joining): string | undefined {
  const [a, b] = [portAt(from, outline), portAt(to, outline)];
  if (!a || !b) return undefined;
  const there = outline.runs.find((run) => (run.from === from && run.to === to) || (run.from === to && run.to === from));
  if (there) return `${there.name} joins these two already.`;
  if ((a.carries === 'high_voltage') !== (b.carries === 'high_voltage')) return `${a.carries === 'high_voltage' ? from : to} carries high voltage and ${a.carries === 'high_voltage' ? to : from} does not: the two are kept apart in a car.`;
  return undefined;
}

/** The stock that most runs between such ports are cut from; the first that there is otherwise. */
export function proposedStock(from: string, to: string, outline: Joining): string | undefined {
  const carries = [portAt(from, outline)?.carries, portAt(to, outline)?.carries].sort().join();
  const used = new Map<string, number>();
  for (const run of outline.runs) {
    if (run.stock === undefined || [portAt(run.from, outline)?.carries, portAt(run.to, outline)?.carries].sort().join() !== carries) continue;
    used.set(run.stock, (used.get(run.stock) ?? 0) + 1);
  }
  return [...used].sort((a, b) => b[1] - a[1])[0]?.[0] ?? outline.stock[0]?.name;
}
