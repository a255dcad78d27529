import { describe, expect, it } from 'vitest';
import { element, elementsOf, portsOf } from '../../checks/fixtures/part-on-bench.ts';
import { switchKind } from './switch.ts';

const isClosed = (fields: Record<string, unknown>, settings: Record<string, unknown>, name: string): boolean => {
  const contact = element(elementsOf(switchKind, fields, settings), name);
  if (contact.type !== 'switch') throw new Error('not a switch');
  return contact.closed;
};
const ports = (fields: Record<string, unknown>): string[] => portsOf(switchKind, fields).map(({ name }) => name);

describe('a switch', () => {
  it('has one open pole when nothing is said about it', () => {
    expect(ports({})).toEqual(['a1', 'b1']);
    expect(isClosed({}, {}, 'contact_1')).toBe(false);
  });

  it('moves all its poles together', () => {
    expect(ports({ poles: 2 })).toEqual(['a1', 'b1', 'a2', 'b2']);
    for (const contact of ['contact_1', 'contact_2']) expect(isClosed({ poles: 2 }, { closed: true }, contact)).toBe(true);
  });

  it('that is closed at rest opens only when told: an emergency stop', () => {
    expect(isClosed({ rest: 'closed' }, {}, 'contact_1')).toBe(true);
    expect(isClosed({ rest: 'closed' }, { closed: false }, 'contact_1')).toBe(false);
  });

  describe('with the positions of a key', () => {
    const key = { positions: { off: [], accessory: ['radio'], on: ['radio', 'ignition'], start: ['ignition', 'start'] } };
    it('has a port for each output, once', () => expect(ports(key)).toEqual(['common', 'radio', 'ignition', 'start']));
    it('rests in its first position', () => {
      for (const output of ['radio', 'ignition', 'start']) expect(isClosed(key, {}, `to_${output}`)).toBe(false);
      expect(isClosed({ positions: { park: ['p'], drive: ['d'] } }, {}, 'to_p')).toBe(true);
    });
    it.each([['off', []], ['accessory', ['radio']], ['on', ['radio', 'ignition']], ['start', ['ignition', 'start']]] as const)('joins what position %s joins', (position, joined) => {
      expect(['radio', 'ignition', 'start'].filter((output) => isClosed(key, { position }, `to_${output}`))).toEqual(joined);
    });
    it('joins nothing in a position that it does not have', () => {
      expect(['radio', 'ignition', 'start'].filter((output) => isClosed(key, { position: 'sideways' }, `to_${output}`))).toEqual([]);
    });
  });
});
