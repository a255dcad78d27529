/**
 * What a kind may declare between its ports. Local element names become `Part.name` in the network;
 * local node names starting with a port name are ports, others are inside points (`K1.inside`).
 */
export interface Wiring {
  /** `Part.port`, for a port of this part; throws if the kind has no such port */
  port(name: string): string;
  /** a point inside the part that no run can reach; a probe may when `canBeProbed` */
  inside(name: string, canBeProbed?: boolean): string;
  readonly chassis: 'chassis';
  resistor(name: string, a: string, b: string, resistance: number): void;
  source(name: string, a: string, b: string, voltage: number, resistance: number): void;
  currentSource(name: string, a: string, b: string, current: number): void;
  capacitor(name: string, a: string, b: string, capacitance: number): void;
  inductor(name: string, a: string, b: string, inductance: number, resistance: number): void;
  switch(name: string, a: string, b: string, closed: boolean, resistance: number): void;
  relay(name: string, a: string, b: string, options: { coil: readonly [string, string]; pickUp: number; dropOut: number; contact: 'makes' | 'breaks'; resistance: number; polarised?: boolean; operateTime?: number; releaseTime?: number }): void;
  diode(name: string, a: string, b: string, drop: number, resistance: number): void;
  powerLoad(name: string, a: string, b: string, power: number, knee: number): void;
  currentLoad(name: string, a: string, b: string, current: number, knee: number): void;
  supply(name: string, a: string, b: string, voltage: number, currentLimit: number, resistance: number): void;
  converter(name: string, options: { input: readonly [string, string]; output: readonly [string, string]; voltage: number; currentLimit: number; resistance: number; efficiency: number; idlePower: number; minimumInput: number; powerLimit?: number }): void;
}
