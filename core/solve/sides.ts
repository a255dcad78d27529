import type { Compiled } from './compile-network.ts';
import { Joined } from './islands.ts';

/** Which nodes branches join, contacts made or not, the reference apart; and the largest voltage on each side, with what a fault may add. */
export function sidesOf({ nodeCount, branchCount, branchA, branchB }: Compiled, x: Float64Array): { readonly of: Int32Array; readonly most: Float64Array } {
  const joined = new Joined(nodeCount);
  for (let k = 0; k < branchCount; k++) if (branchA[k]! >= 0 && branchB[k]! >= 0) joined.join(branchA[k]!, branchB[k]!);
  const of = new Int32Array(nodeCount), most = new Float64Array(nodeCount);
  for (let n = 0; n < nodeCount; n++) { of[n] = joined.root(n); most[of[n]!] = Math.max(most[of[n]!]!, Math.abs(x[n]!)); }
  return { of, most };
}
