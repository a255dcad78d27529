/**
 * Voltage at every consumer in every mode: enough, not too much, how much was lost on the way, and how far its ground has risen.
 */
import type { Car, CarPart } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import type { ConsumerRole } from '../../part/role.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import { known, overModes } from './check-over-modes.ts';
import { currentThrough } from './current-through.ts';
import type { Metal } from './metal.ts';
import type { ModePoint, ModePoints } from './mode-points.ts';
import { voltageAcross } from './mode-points.ts';

export interface ConsumerResult {
  readonly part: string;
  readonly name: string;
  /** voltage drop is judged by the stricter figure */
  readonly isCritical: boolean;
  readonly minimumVoltage: number | undefined; readonly maximumVoltage: number | undefined;
  /** in the order of the modes, `rest` first */
  readonly modes: readonly { readonly mode: string; /** [V]; undefined: its two terminals are not tied to each other */ readonly voltage: number | undefined; /** [A] */ readonly current: number; readonly isRunning: boolean }[];
}

/** Share of the bus voltage that may be lost out and back: circuits that matter, and the others. [abyc-e-11] */
export const CRITICAL_DROP = 0.03;
export const OTHER_DROP = 0.1;
/** Rise of a consumer's ground above the chassis [V]; common practice, no source. */
export const GROUND_RISE = 0.5;
/** Below this share of its lowest working voltage a consumer counts as off: what leaks through inputs and lamps is no supply. Our choice. */
const OFF_SHARE = 0.25;

/** @param unfinished  paths of values that batteries and DC-DCs lack: they may be what feeds a consumer that nothing feeds */
export function studyConsumers(car: Car, modes: ModePoints, metal: Metal, unfinished: readonly string[] = []): { results: readonly ConsumerResult[]; checks: readonly Check[] } {
  const results: ConsumerResult[] = [];
  const checks: Check[] = [];
  for (const part of car.parts.values()) {
    for (const role of part.roles.consumers ?? []) {
      const here = modes.points.map((point) => ({ point, ...atPoint(part, role, point) }));
      const isCritical = matters(part);
      results.push({
        part: part.name, name: role.name, isCritical, minimumVoltage: role.minimumVoltage, maximumVoltage: role.maximumVoltage,
        modes: here.map(({ point, voltage, current, isRunning }) => ({ mode: point.mode, voltage, current, isRunning })),
      });
      // coils have checks of their own
      if (!isCoil(part, role)) checks.push(...consumerChecks(part, role, here, isCritical, modes, { metal, unfinished }));
    }
  }
  return { results, checks };
}

interface At { readonly point: ModePoint; readonly voltage: number | undefined; readonly current: number; readonly isRunning: boolean; /** of its negative terminal against the chassis [V] */ readonly groundRise: number | undefined }

function atPoint(part: CarPart, role: ConsumerRole, { solved }: ModePoint): Omit<At, 'point'> {
  const [positive, negative] = [part.names.of(role.positive), part.names.of(role.negative)];
  const voltage = voltageAcross(solved, positive, negative);
  const current = currentThrough(solved, part.names.of(role.element));
  const isRunning = voltage !== undefined && current > 0 && voltage > OFF_SHARE * (role.minimumVoltage ?? 0);
  return { voltage, current, isRunning, groundRise: voltageAcross(solved, negative, REFERENCE_NODE) };
}

/** Control units, what moves contacts or wheels, and what watches the isolation. */
function matters({ roles }: CarPart): boolean {
  return roles.switching !== undefined || roles.traction !== undefined || roles.isolationMonitor !== undefined || roles.prechargeConverter !== undefined;
}

export function isCoil(part: CarPart, { element }: Pick<ConsumerRole, 'element'>): boolean {
  return (part.roles.switching ?? []).some(({ coil }) => coil?.element === element);
}

function consumerChecks(part: CarPart, role: ConsumerRole, here: readonly At[], isCritical: boolean, modes: ModePoints, { metal, unfinished }: { readonly metal: Metal; readonly unfinished: readonly string[] }): Check[] {
  const about = [part.name];
  const { minimumVoltage, maximumVoltage } = role;
  const lacks = minimumVoltage === undefined ? [`parts.${part.name}.minimum_voltage`] : [];
  const highest = largest(here, ({ voltage }) => voltage ?? 0);
  const checks: Check[] = [];
  if (metal.sources.length === 0 && unfinished.length > 0) return [{ code: 'low-voltage.consumer-fed', about, sense: 'at_least', quantity: 'voltage', needs: unfinished }];
  const wiring = wayTo(part, role, metal);
  const reason = wiring ?? ((highest?.value ?? 0) < 0 || here.some(({ voltage }) => (voltage ?? 0) < -1) ? 'it is wired the wrong way round' : 'no mode switches it on, or what reaches it is too little');
  checks.push(overModes({
    code: 'low-voltage.consumer-fed', about, sense: 'at_least', quantity: 'voltage', ...known(highest?.value ?? 0, minimumVoltage, lacks),
    details: { mode: highest?.at.point.mode ?? '-', reason }, ...(wiring === undefined ? {} : { levelWhenBroken: 'fix' as const }),
  }, modes));

  if (highest && maximumVoltage !== undefined && wiring === undefined) {
    checks.push(overModes({ code: 'low-voltage.consumer-voltage-high', about, sense: 'at_most', quantity: 'voltage', ...known(highest.value, maximumVoltage), details: { mode: highest.at.point.mode } }, modes));
  }
  const running = here.filter(({ isRunning }) => isRunning);
  const lowest = largest(running, ({ voltage }) => -(voltage ?? 0));
  if (!lowest) return checks;
  checks.push(overModes({ code: 'low-voltage.consumer-voltage-low', about, sense: 'at_least', quantity: 'voltage', ...known(-lowest.value, minimumVoltage, lacks), details: { mode: lowest.at.point.mode } }, modes));

  const drop = largest(running, ({ voltage, point }) => (point.bus > 0 ? Math.max(0, 1 - (voltage ?? 0) / point.bus) : undefined));
  if (drop) {
    const { point, voltage } = drop.at;
    checks.push(overModes({
      code: isCritical ? 'low-voltage.critical-drop' : 'low-voltage.consumer-drop', about, sense: 'at_most', quantity: 'ratio', ...known(drop.value, isCritical ? CRITICAL_DROP : OTHER_DROP),
      details: { mode: point.mode, bus: { value: point.bus, quantity: 'voltage' }, arrives: { value: voltage ?? 0, quantity: 'voltage' } },
      ...(drop.value > OTHER_DROP ? { levelWhenBroken: 'fix' as const } : {}),
    }, modes));
  }
  const rise = largest(running, ({ groundRise }) => (groundRise === undefined ? undefined : Math.abs(groundRise)));
  if (rise) checks.push(overModes({ code: 'low-voltage.consumer-ground', about, sense: 'at_most', quantity: 'voltage', ...known(rise.value, GROUND_RISE), details: { mode: rise.at.point.mode } }, modes));
  return checks;
}

/** Why no current can ever reach it, whatever is switched; undefined when a way leads out and back. */
function wayTo(part: CarPart, { positive, negative }: ConsumerRole, { sources }: Metal): string | undefined {
  if (sources.length === 0) return 'no battery and no DC-DC is in the file';
  const [plus, minus] = [part.names.of(positive), part.names.of(negative)];
  const fed = sources.some(({ feed }) => feed.resistance(plus) !== undefined);
  const returns = sources.some(({ back }) => back.resistance(minus) !== undefined);
  if (fed && returns) return undefined;
  if (!fed && sources.some(({ back }) => back.resistance(plus) !== undefined) && sources.some(({ feed }) => feed.resistance(minus) !== undefined)) return 'it is wired the wrong way round';
  if (!fed && !returns) return 'neither its supply nor its return leads to a source';
  return fed ? 'its return leads to no source' : 'no wire leads from a source to its supply';
}

function largest(list: readonly At[], valueOf: (at: At) => number | undefined): { readonly value: number; readonly at: At } | undefined {
  let found: { value: number; at: At } | undefined;
  for (const at of list) {
    const value = valueOf(at);
    if (value !== undefined && (!found || value > found.value)) found = { value, at };
  }
  return found;
}
