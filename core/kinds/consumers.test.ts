import { describe, expect, it } from 'vitest';
import { elementsOf, partNow, solvedOnBench } from '../../checks/fixtures/part-on-bench.ts';
import type { Kind } from '../part/kind.ts';
import type { Element } from '../solve/element.ts';
import { canNode } from './can-node.ts';
import { indicator } from './indicator.ts';
import { load } from './load.ts';
import { pump } from './pump.ts';

const ground: Element = { type: 'resistor', id: 'ground', a: 'X.ground', b: 'chassis', resistance: 0 };
/** Current that the part takes from a supply of that many volts [A]. */
function taken(kind: Kind, fields: Record<string, unknown>, settings: Record<string, unknown> = {}, volts = 13.5): number {
  return -solvedOnBench(elementsOf(kind, { rated_voltage: 13.5, ...fields }, settings), [ground, { type: 'source', id: 'supply', a: 'X.supply', b: 'chassis', voltage: volts, resistance: 0 }]).currentOf('supply');
}

describe.each([['load', load], ['pump', pump], ['can_node', canNode]] as const)('a %s', (name, kind) => {
  const run = name === 'pump' ? { speed: 1 } : { on: true };
  const stop = name === 'pump' ? { speed: 0 } : { on: false };
  it('takes nothing without voltage', () => expect(taken(kind, { current: 6 }, run, 0)).toBeCloseTo(0, 9));
  it('that runs whenever it is fed takes its current at its rated voltage, and stops when told', () => {
    expect(taken(kind, { current: 6 })).toBeCloseTo(6, 3);
    expect(taken(kind, { current: 6 }, stop)).toBeCloseTo(0, 3);
  });
  it('that waits for its command takes its standby current alone until then', () => {
    const waiting = { current: 6, runs: 'when_told', standby_current: 0.005 };
    expect(taken(kind, waiting)).toBeCloseTo(0.005, 4);
    expect(taken(kind, waiting, run)).toBeCloseTo(6.005, 2);
  });
  it('takes its starting current while it starts, and says so in its role', () => {
    const fields = { current: 6, start_current: 20, start_time: 0.1, rated_voltage: 13.5 };
    expect(taken(kind, fields, { ...run, starting: true })).toBeCloseTo(20, 1);
    expect(kind.roles(partNow(kind, fields)).consumers?.[0]).toMatchObject({ startCurrent: 20, startTime: 0.1 });
  });
  it('says nothing of a standby current or a start that it does not have', () => {
    const role = kind.roles(partNow(kind, { current: 6 })).consumers![0]!;
    for (const key of ['standbyElement', 'startCurrent', 'startTime']) expect(role).not.toHaveProperty(key);
  });
});

describe('a load at 10.8 V, four fifths of its rated voltage', () => {
  it.each([['resistance', 0.8], ['current', 1], ['power', 1.25]] as const)('that draws by %s takes %f of its current', (draws, share) => {
    expect(taken(load, { current: 4, draws }, {}, 10.8)).toBeCloseTo(4 * share, 2);
  });
});

describe('a pump with electronics', () => {
  // affinity law: power goes with the cube of speed; at half speed one eighth, above the idle share
  it('takes at half speed one eighth of its power, and its idle share', () => {
    expect(taken(pump, { current: 8, runs: 'when_told', idle_share: 0 }, { speed: 0.5 })).toBeCloseTo(1, 2);
    expect(taken(pump, { current: 8, runs: 'when_told', idle_share: 0.05 }, { speed: 0.5 })).toBeCloseTo(8 * (0.05 + 0.95 / 8), 2);
  });
});

describe('an LED', () => {
  it('lights one way round only', () => {
    expect(taken(indicator, { type: 'led', current: 0.02 })).toBeCloseTo(0.02, 6);
    expect(taken(indicator, { type: 'led', current: 0.02 }, {}, -13.5)).toBeCloseTo(0, 6);
  });
});
