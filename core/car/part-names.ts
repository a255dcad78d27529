/**
 * Names of a part's points and elements in the network, `Part.name`, made once and kept for all draws and states.
 */
import type { Port } from '../part/kind.ts';

export interface PartNames {
  /** node of a port; undefined for a name that is no port */
  readonly portNode: (port: string) => string | undefined;
  /** `Part.name` for an element or an inside point */
  readonly of: (name: string) => string;
  /** points inside a part as one object: the same one for the same points, in every draw and state */
  readonly kept: (nodes: readonly string[], probed: readonly string[]) => { readonly nodes: readonly string[]; readonly probed: readonly string[] };
}

export function partNames(part: string, ports: readonly Port[]): PartNames {
  const nodes = new Map(ports.map(({ name }) => [name, `${part}.${name}`]));
  const names = new Map<string, string>();
  const kept: { readonly nodes: readonly string[]; readonly probed: readonly string[] }[] = [];
  const same = (a: readonly string[], b: readonly string[]): boolean => a.length === b.length && a.every((name, index) => name === b[index]);
  return {
    portNode: (port) => nodes.get(port),
    of: (name) => {
      let whole = names.get(name);
      if (whole === undefined) names.set(name, (whole = `${part}.${name}`));
      return whole;
    },
    kept: (ownNodes, probed) => {
      const known = kept.find((one) => same(one.nodes, ownNodes) && same(one.probed, probed));
      if (known) return known;
      const made = { nodes: ownNodes, probed };
      kept.push(made);
      return made;
    },
  };
}
