/**
 * The sources themselves: is there one, does its negative end lie on the chassis, and does nothing join its two ends.
 */
import type { Check } from '../../findings/finding.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import type { Metal } from './metal.ts';

/** Topology alone: these checks say the same in every draw. */
export function checkSources({ sources, shorts }: Metal): readonly Check[] {
  const checks: Check[] = sources.filter(({ source }) => source.currentLimit === undefined)
    .map(({ source, back }) => ({ code: 'low-voltage.battery-on-chassis', about: [source.part], value: back.resistance(REFERENCE_NODE) === undefined ? 0 : 1, limit: 1, sense: 'is_true' }));
  for (const { source } of sources) {
    const short = shorts.find(({ positive }) => positive === source.positive);
    const names = (short?.way ?? []).map(({ id, run }) => (run ? run.name : id.slice(0, id.indexOf('.'))));
    checks.push({ code: 'low-voltage.no-dead-short', about: [...new Set([source.part, ...names])], value: short ? 0 : 1, limit: 1, sense: 'is_true' });
  }
  return checks;
}
