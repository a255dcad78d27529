/**
 * What a part does in the car, as plain data, so that no topic ever asks for a kind's name.
 * A kind that plays a part in a subject declares the role; a subject reads the roles of all parts.
 * Element names are local to the part (`contact`, `coil`); port names too.
 */

/** Series-connected cells between two ports. */
export interface CellsRole {
  readonly positive: string; readonly negative: string;
  readonly series: number; readonly parallel: number;
  /** name in the `cells` section */
  readonly cell: string;
  /** terminal voltage the builder measured at rest [V] */
  readonly measuredVoltage: number | undefined;
}

/** Something that opens by itself on too much current. */
export interface ProtectionRole {
  readonly element: string; readonly a: string; readonly b: string;
  /** `pyrotechnic` opens on a command, not by heat */
  readonly style: 'full_range' | 'partial_range' | 'blade' | 'pyrotechnic';
  readonly rating: number;
  readonly voltageRating: number | undefined;
  readonly breakingCapacity: number | undefined;
  /** a partial-range fuse must not be asked to clear less than this [A] */
  readonly minimumBreaking: number | undefined;
  /** longest L/R the voltage rating holds for [s] */
  readonly timeConstantRating: number | undefined;
  /** [A2.s] */
  readonly meltingEnergy: number | undefined;
  readonly clearingEnergy: number | undefined;
  /** where it sits: air temperature around it [K] */
  readonly ambient: number | undefined;
  /** body of a `blade` style fuse, which decides its opening times (ISO 8820-3, -5) */
  readonly form?: 'mini' | 'blade' | 'maxi' | 'midi' | 'mega';
}

/** Who or what moves a switch. */
export type WorkedBy = 'hand' | 'foot' | 'door' | 'crash' | 'other';

/** Something that makes and breaks on command or by hand. */
export interface SwitchingRole {
  readonly element: string; readonly a: string; readonly b: string;
  readonly by: 'coil' | 'hand' | 'electronics';
  /** what works a contact that is `by: 'hand'`; absent: a hand */
  readonly workedBy?: WorkedBy;
  readonly rating: number | undefined;
  readonly voltageRating: number | undefined;
  readonly breakingCurrent: number | undefined;
  readonly makingCurrent: number | undefined;
  /** where the file gives its rating, below the part: `outputs.k1.current_limit`; absent: `rating` */
  readonly ratingAt?: string;
  /** highest voltage across the open contact at which it may be closed onto a capacitor [V] */
  readonly coil: { readonly element: string; readonly positive: string; readonly negative: string; readonly pickUp: number; readonly dropOut: number; /** from coil switched off to open contact [s] */ readonly releaseTime?: number } | undefined;
}

/** A capacitor across the high voltage that precharge fills and discharge empties. */
export interface DcLinkRole {
  readonly element: string; readonly positive: string; readonly negative: string;
  readonly capacitance: number;
  readonly bleeder: number | undefined;
  /** time the part's own active discharge takes from its highest voltage to 60 V [s] */
  readonly activeDischarge: number | undefined;
  readonly maximumVoltage: number | undefined;
  readonly minimumVoltage: number | undefined;
}

export interface PrechargeResistorRole {
  readonly resistorElement: string; readonly contactElement: string;
  readonly resistance: number;
  readonly pulseEnergy: number | undefined;
  readonly continuousPower: number | undefined;
  /** local ports where it enters and leaves */
  readonly a: string; readonly b: string;
}

export interface PrechargeConverterRole {
  readonly positive: string; readonly negative: string;
  readonly supplyPositive: string; readonly supplyNegative: string;
  readonly outputPower: number; readonly outputCurrent: number; readonly outputVoltage: number; readonly efficiency: number;
}

/** A supply with a current limit that stands beside the vehicle and is clipped on by hand. It gives nothing while `voltageSetting` is not set. */
export interface BenchSourceRole {
  readonly positive: string; readonly negative: string;
  /** carries what it gives, out of `positive` */
  readonly element: string;
  readonly voltageSetting: string; readonly currentSetting: string;
  readonly maximumVoltage: number; readonly maximumCurrent: number; readonly maximumPower: number | undefined;
  /** across its output [F] */
  readonly outputCapacitance: number;
  /** across its output, on or off [ohm] */
  readonly preload: number;
  readonly isEarthed: boolean;
  /** points of the car (`Part.port`) where its clips go; undefined: the file does not say */
  readonly clipPositive: string | undefined; readonly clipNegative: string | undefined;
}

/** What the builder can pull to split the pack by hand. */
export interface DisconnectRole { readonly element: string; readonly a: string; readonly b: string; readonly hasInterlock: boolean; /** flag among its settings that says it is out */ readonly outSetting: string }

export interface LowVoltageBatteryRole {
  readonly positive: string; readonly negative: string; readonly capacity: number; readonly element: string;
  /** between its posts: the least that fills it, and the most that it may be charged with at 25 °C [V]; and what it is called */
  readonly charge?: { readonly least: number; readonly most: number; readonly chemistry: string };
}
export interface LowVoltageSupplyRole { readonly positive: string; readonly negative: string; readonly currentLimit: number; readonly element: string; /** it holds this when nothing limits it [V]; with the mode's settings: `rolesIn` */ readonly voltage: number }

/** Something that needs a supply between two voltages. */
export interface ConsumerRole {
  readonly name: string; readonly positive: string; readonly negative: string;
  readonly minimumVoltage: number | undefined; readonly maximumVoltage: number | undefined;
  readonly element: string;
  /** element that still takes current while the consumer is off or asleep; absent: there is none */
  readonly standbyElement?: string;
  /** highest current while it starts [A], and how long that lasts [s] */
  readonly startCurrent?: number; readonly startTime?: number;
}

/** A supply that charges the cells. What it is set to depends on the mode: read it with `rolesIn`. */
export interface FeedsPackRole {
  readonly positive: string; readonly negative: string;
  /** it delivers with these settings */
  readonly isOn: boolean;
  /** voltage that it drives into an open circuit [V] */
  readonly voltage: number;
}

/** Pins at mains voltage. */
export interface MainsRole {
  readonly lines: readonly string[]; readonly neutral: string;
  /** protective conductor */
  readonly earth: string;
  /** where the station comes in; its values depend on the mode: read them with `rolesIn` */
  readonly inlet?: {
    /** element of each line's pin */
    readonly pins: readonly string[];
    readonly isPlugged: boolean;
    /** rms, line to neutral [V] */
    readonly voltage: number;
    /** continuous, per line [A] */
    readonly rating: number | undefined;
    /** what the plug of the cable is coded for [A] */
    readonly cableRating: number;
  };
}

/** Pins of a connector, each an element of its own, all with one rating. */
export interface PinsRole { readonly rating: number | undefined; readonly pins: readonly { readonly pin: string; readonly element: string }[] }

/** What a part is declared to bear where no other role says it. A value is undefined when the file states none. */
export interface RatedRole {
  /** elements whose currents count; the largest is judged */
  readonly elements: readonly string[];
  /** ports between which the voltage stands that makes a power of the current */
  readonly positive?: string; readonly negative?: string;
  /** [A] */ readonly continuousCurrent?: number | undefined; readonly peakCurrent?: number | undefined;
  /** [W] */ readonly continuousPower?: number | undefined; readonly peakPower?: number | undefined;
  /** highest direct voltage [V] */ readonly voltage?: number | undefined;
}

/** Insulation and filter capacitors between a high-voltage pole and the chassis. */
export interface InsulationRole { readonly port: string; readonly resistance: number | undefined; /** [F]; 0: no filter, undefined: not known */ readonly capacitance: number | undefined; readonly acSide: boolean }

/** One track of a pedal: ports, and its signal at rest and fully pressed as shares of its supply [1]. */
export interface PedalTrack { readonly supply: string; readonly ground: string; readonly signal: string; readonly low: number; readonly high: number }

export interface Roles {
  readonly cells?: CellsRole;
  readonly protection?: readonly ProtectionRole[];
  readonly switching?: readonly SwitchingRole[];
  readonly dcLink?: DcLinkRole;
  readonly prechargeResistor?: PrechargeResistorRole;
  readonly prechargeConverter?: PrechargeConverterRole;
  readonly benchSource?: BenchSourceRole;
  readonly disconnect?: DisconnectRole;
  readonly lowVoltageBattery?: LowVoltageBatteryRole;
  readonly lowVoltageSupply?: LowVoltageSupplyRole;
  readonly feedsPack?: FeedsPackRole;
  readonly mains?: MainsRole;
  readonly pins?: PinsRole;
  readonly rated?: readonly RatedRole[];
  readonly consumers?: readonly ConsumerRole[];
  readonly insulation?: readonly InsulationRole[];
  readonly isolationMonitor?: { readonly warnBelow: number | undefined };
  /** pairs of ports through which the interlock loop passes */
  readonly interlock?: readonly (readonly [string, string])[];
  /** it tells the driver something: the element that lights or sounds while it carries current */
  readonly indicator?: { readonly element: string };
  /** it tells electronics how far a foot presses; `travelSetting` is 0..1 */
  readonly pedal?: { readonly tracks: readonly PedalTrack[]; readonly travelSetting: string };
  /** it can turn the wheels */
  readonly traction?: { readonly continuousCurrent: number | undefined; readonly peakCurrent: number | undefined; readonly peakPower: number | undefined };
}
