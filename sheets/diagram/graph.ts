/** What is laid out: boxes with ports at given places on their sides, and lines between ports that carry a label. All lengths [mm]. */
export type Side = 'west' | 'east';

export interface GraphPort {
  readonly id: string;
  readonly side: Side;
  /** from the top of its node */
  readonly y: number;
}

export interface GraphNode {
  readonly id: string;
  readonly width: number; readonly height: number;
  readonly ports: readonly GraphPort[];
}

export interface GraphEdge {
  readonly id: string;
  /** ids of ports; drawn from left to right where that can be */
  readonly from: string; readonly to: string;
  /** size of what is written on the line; the line passes through its middle */
  readonly label: { readonly width: number; readonly height: number };
}

export interface Graph { readonly nodes: readonly GraphNode[]; readonly edges: readonly GraphEdge[] }

export interface PlacedPoint { readonly x: number; readonly y: number }
export interface PlacedEdge {
  readonly id: string;
  /** from end to end, every bend included */
  readonly points: readonly PlacedPoint[];
  /** where lines that share a port part from each other */
  readonly junctions: readonly PlacedPoint[];
  /** middle of the label */
  readonly label: PlacedPoint;
}

export interface Placed {
  readonly width: number; readonly height: number;
  /** top left corners by node id */
  readonly nodes: Readonly<Record<string, PlacedPoint>>;
  readonly edges: readonly PlacedEdge[];
}
