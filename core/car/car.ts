/**
 * One draw of the build: every quantity a plain SI number. Topics compute on this.
 */
import type { Build } from '../build/build.ts';
import type { Catalogue } from '../part/catalogue.ts';
import type { CellNow, Conditions, Kind, PartNow, Port } from '../part/kind.ts';
import type { Conductor, RunKind } from '../part/run-kind.ts';
import type { Position, Fields } from '../part/field.ts';
import type { Roles } from '../part/role.ts';
import type { PartNames } from './part-names.ts';

export interface CarPart {
  readonly name: string;
  readonly kind: Kind;
  readonly names: PartNames;
  readonly ports: readonly Port[];
  /** paths of required values that are missing; such a part is not wired and its roles are empty */
  readonly missing: readonly string[];
  /** plain values by field name, common fields (mass, size, at) included */
  readonly fields: Readonly<Record<string, unknown>>;
  readonly mass: number | undefined;
  readonly at: Position | undefined;
  readonly size: Position | undefined;
  readonly cell: CellNow | undefined;
  /** roles at rest settings */
  readonly roles: Roles;
  /** the part as its kind's functions want it, with the given settings; conditions other than the car's own when a state asks */
  readonly now: (settings: Readonly<Record<string, unknown>>, conditions?: Conditions) => PartNow<Fields, Fields>;
}

export interface CarRun {
  readonly name: string;
  /** `Part.port` */
  readonly from: string; readonly to: string;
  readonly kind: RunKind;
  readonly carries: Port['carries'];
  /** [m]; undefined when neither given nor computable from places */
  readonly length: number | undefined;
  readonly lengthIs: 'given' | 'route' | 'missing';
  readonly conductor: Conductor | undefined;
  readonly missing: readonly string[];
  /** resistance of both end joints together [ohm] */
  readonly jointResistance: number;
  readonly fields: Readonly<Record<string, unknown>>;
}

/** A cell of the `cells` section; its voltage and resistance depend on charge and temperature. */
export interface CarCell {
  readonly name: string;
  readonly fields: Readonly<Record<string, unknown>>;
  readonly missing: readonly string[];
  /** undefined when a required value is missing or the chemistry has no curve */
  readonly at: (conditions: Conditions) => CellNow | undefined;
}

export interface Car {
  /** a draw of which only the margins are wanted: checks may leave out their details, results their curves */
  readonly isForMargins: boolean;
  readonly build: Build;
  readonly catalogue: Catalogue;
  readonly conditions: Conditions;
  readonly parts: ReadonlyMap<string, CarPart>;
  readonly runs: ReadonlyMap<string, CarRun>;
  readonly cells: ReadonlyMap<string, CarCell>;
  readonly vehicle: Readonly<Record<string, unknown>>;
  readonly removed: readonly { readonly name: string; readonly mass: number | undefined; readonly at: Position | undefined }[];
  readonly modes: ReadonlyMap<string, { readonly name: string; readonly lasts: number | undefined; readonly every: number | undefined; /** [1], of the file: the same in every draw */ readonly highestCharge: number | undefined; readonly set: Readonly<Record<string, Readonly<Record<string, unknown>>>> }>;
}
