/**
 * Names of a part's points and elements in the network, `Part.name`, made once and kept for all draws and states.
 */
import type { Port } from '../part/kind.ts';

export interface PartNames {
  /** node of a port; undefined for a name that is no port */
  readonly portNode: (port: string) => string | undefined;
  /** `Part.name` for an element or an inside point */
  readonly of: (name: string) => string;
}

export function partNames(part: string, ports: readonly Port[]): PartNames {
  const nodes = new Map(ports.map(({ name }) => [name, `${part}.${name}`]));
  const names = new Map<string, string>();
  return {
    portNode: (port) => nodes.get(port),
    of: (name) => {
      let whole = names.get(name);
      if (whole === undefined) names.set(name, (whole = `${part}.${name}`));
      return whole;
    },
  };
}
