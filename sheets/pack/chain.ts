/**
 * The way through a string from the pack's negative end to its positive end, piece by piece: modules, what joins them, and the
 * fuses, contacts and disconnects in between, each with the terminals where one piece ends and the next begins.
 */
import type { Car } from '../../core/car/car.ts';
import { metalOf, ownerOf } from '../../core/car/metal-graph.ts';
import type { MetalGraph, PathLink } from '../../core/car/metal-graph.ts';
import type { Assembly, Pack, PackString, StringModule } from '../../core/car/strings.ts';

/** What a piece is on a diagram. */
export type Sign = 'module' | 'fuse' | 'contact' | 'disconnect' | 'run' | 'part';

export interface Piece {
  readonly sign: Sign;
  /** of the part or run */
  readonly name: string;
  /** terminals (`M1.pos`), the nearer to pack negative first */
  readonly from: string; readonly to: string;
  /** without its cells [ohm]; a module: cells and links */
  readonly resistance: number;
  /** a disconnect with a fuse inside */
  readonly hasFuse: boolean;
  /** of a module that is turned round */
  readonly isReversed: boolean;
}

export interface Chain {
  readonly string: PackString;
  readonly pieces: readonly Piece[];
  /** where it begins and ends (`J_neg.stud_1`) */
  readonly negative: string; readonly positive: string;
}

/** The chain of every string of a pack. */
export function chainsOf(car: Car, pack: Pack): readonly Chain[] {
  const metal = metalOf(car);
  return pack.strings.map((string): Chain => {
    const meets = pack.assembly && meetingPoints(pack.assembly, string);
    const before = meets ? piecesBetween(car, metal, meets.negative, string.negative) : leadOut(car, metal, string.negative).reverse().map(turned);
    const after = meets ? piecesBetween(car, metal, string.positive, meets.positive) : leadOut(car, metal, string.positive);
    const inner = string.modules.flatMap((module, index): readonly Piece[] => {
      const next = string.modules[index + 1];
      const own = modulePiece(module);
      return next ? [own, ...piecesBetween(car, metal, own.to, modulePiece(next).from)] : [own];
    });
    const pieces = [...before, ...inner, ...after];
    return { string, pieces, negative: pieces[0]?.from ?? string.negative, positive: pieces.at(-1)?.to ?? string.positive };
  });
}

function modulePiece({ part, positive, negative, isReversed, resistance }: StringModule): Piece {
  return { sign: 'module', name: part.name, from: isReversed ? positive : negative, to: isReversed ? negative : positive, resistance, hasFuse: false, isReversed };
}

const turned = (piece: Piece): Piece => ({ ...piece, from: piece.to, to: piece.from });

/** Ends that a string shares with others; undefined: it shares none. */
function meetingPoints(assembly: Assembly, string: PackString): { readonly positive: string; readonly negative: string } | undefined {
  if (assembly.form === 'string') return undefined;
  for (const { assembly: member } of assembly.members) {
    if (!holds(member, string)) continue;
    const inner = meetingPoints(member, string);
    if (inner) return inner;
    return assembly.form === 'parallel' && member.form === 'string' ? { positive: assembly.positive, negative: assembly.negative } : undefined;
  }
  return undefined;
}

const holds = (assembly: Assembly, string: PackString): boolean => (assembly.form === 'string' ? assembly.string === string : assembly.members.some(({ assembly: member }) => holds(member, string)));

/** From a pack's end as far as everything that uses the pack has the same way. */
function leadOut(car: Car, metal: MetalGraph, end: string): Piece[] {
  const net = metal.netOf(end);
  const ways = [...car.parts.values()].flatMap(({ name, roles }) => (roles.dcLink ? [`${name}.${roles.dcLink.positive}`, `${name}.${roles.dcLink.negative}`] : []))
    .filter((node) => metal.netOf(node) === net).flatMap((node) => { const way = metal.path(end, node); return way ? [way] : []; });
  const first = ways[0];
  if (!first) return [];
  const shared = first.links.findIndex((link, index) => ways.some((way) => way.links[index] !== link));
  const links = shared < 0 ? first.links : first.links.slice(0, shared);
  const pieces = piecesOf(car, links, end);
  // a bar where ways part is where the chain ends, not a piece of it
  while (pieces.length > 0 && pieces.at(-1)!.sign === 'part') pieces.pop();
  return pieces;
}

function piecesBetween(car: Car, metal: MetalGraph, from: string, to: string): Piece[] {
  return from === to ? [] : piecesOf(car, metal.path(from, to)?.links ?? [], from);
}

/** Links of one owner after another become one piece. */
function piecesOf(car: Car, links: readonly PathLink[], start: string): Piece[] {
  const pieces: Piece[] = [];
  let node = start;
  let ids: string[] = [];
  for (const link of links) {
    const next = link.a === node ? link.b : link.a;
    const name = ownerOf(link.id);
    const last = pieces.at(-1);
    if (last?.name === name) {
      ids.push(link.id);
      pieces[pieces.length - 1] = { ...last, to: next, resistance: last.resistance + link.resistance, ...signOf(car, name, ids) };
    } else {
      ids = [link.id];
      pieces.push({ ...signOf(car, name, ids), name, from: node, to: next, resistance: link.resistance, isReversed: false });
    }
    node = next;
  }
  return pieces;
}

/** By what the part does with the elements on the way, never by its kind. */
function signOf(car: Car, name: string, ids: readonly string[]): { readonly sign: Sign; readonly hasFuse: boolean } {
  if (car.runs.has(name)) return { sign: 'run', hasFuse: false };
  const roles = car.parts.get(name)?.roles;
  const isOn = (element: string): boolean => ids.includes(`${name}.${element}`);
  const hasFuse = roles?.protection?.some(({ element }) => isOn(element)) === true;
  const switching = roles?.switching?.filter(({ element }) => isOn(element)) ?? [];
  if (switching.some(({ by }) => by === 'hand')) return { sign: 'disconnect', hasFuse };
  if (switching.length > 0) return { sign: 'contact', hasFuse };
  return { sign: hasFuse ? 'fuse' : 'part', hasFuse };
}
