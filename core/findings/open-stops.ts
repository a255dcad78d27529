/** The findings at `stop` that are open: what every procedure says first, and what its steps are held by. */
import type { Finding, TopicName } from './finding.ts';

export interface OpenStop {
  /** from 1, as the procedures name it: `STOP 2` */
  readonly number: number;
  readonly code: string;
  readonly topic: TopicName;
  /** parts, runs, modes and strings it is about */
  readonly about: readonly string[];
  /** mode, place or condition that tells it from others of its code */
  readonly variant: string | undefined;
  readonly statement: string;
  readonly whatToDo: string;
}

/** In the order of the list of findings. */
export function openStops(findings: readonly Finding[]): readonly OpenStop[] {
  return findings.filter(({ level }) => level === 'stop').map(({ code, topic, about, variant, statement, whatToDo }, index) => ({ number: index + 1, code, topic, about, variant, statement, whatToDo }));
}

/** Over the list of them. @param held  what is not done meanwhile: `the joints`, `the steps`; absent: nothing is held */
export function stopsWords(stops: readonly OpenStop[], held?: string): string {
  const [many, these, they] = stops.length === 1 ? ['One finding is', 'it is', 'it is'] : [`${stops.length} findings are`, 'these are', 'they are'];
  return `${many} at STOP. Do not begin and energise nothing before ${these} settled${held === undefined ? '' : `; ${held} that ${they} about are held`}.`;
}

/** `STOP 2: Fuse F_B is rated 350 V DC, … Use a fuse …` */
export const stopWords = ({ number, statement, whatToDo }: OpenStop): string => `STOP ${number}: ${statement} ${whatToDo}`.trim();

/** Names of some, as a step says by what it is held: `STOP 1 and STOP 3`. */
export const stopNames = (stops: readonly Pick<OpenStop, 'number'>[]): string => stops.map(({ number }) => `STOP ${number}`).join(' and ');
