/**
 * Points in groups: which points does a set of branches join to each other? Points have numbers, because this is asked a
 * dozen times for each draw.
 */

/** Points joined to each other; two points of one group are one point for the purpose asked about. */
export interface Groups { readonly of: (node: string) => number; readonly ofPoint: (point: number) => number; readonly same: (a: string, b: string) => boolean }

/** What joins two points, by their numbers. */
export interface Joint { readonly from: number; readonly to: number }

export interface Numbering { readonly of: (node: string) => number; readonly count: () => number }

/** A number for each point, given when it is first asked for. */
export function numbering(): Numbering {
  const known = new Map<string, number>();
  return {
    count: () => known.size,
    of: (node) => {
      let number = known.get(node);
      if (number === undefined) known.set(node, (number = known.size));
      return number;
    },
  };
}

/** Groups over the branches that `joins`. */
export function groupsOver<B extends Joint>(branches: readonly B[], points: Numbering, joins: (branch: B) => boolean): Groups {
  const count = points.count();
  const parent = new Int32Array(count);
  for (let point = 0; point < count; point++) parent[point] = point;
  const root = (point: number): number => {
    let at = point;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  };
  for (const branch of branches) {
    if (!joins(branch)) continue;
    const [a, b] = [root(branch.from), root(branch.to)];
    if (a !== b) parent[a] = b;
  }
  // a point numbered later touches no branch: it is a group of its own
  const ofPoint = (point: number): number => (point < count ? root(point) : point);
  const of = (node: string): number => ofPoint(points.of(node));
  return { of, ofPoint, same: (a, b) => of(a) === of(b) };
}
