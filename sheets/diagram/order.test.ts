import { expect, it } from 'vitest';
import { stepsFrom } from './order.ts';

const links = [{ a: 'battery', b: 'fuse' }, { a: 'fuse', b: 'bar' }, { a: 'battery', b: 'contactor' }, { a: 'bar', b: 'branch' }, { a: 'branch', b: 'load' }, { a: 'contactor', b: 'load' }, { a: 'load', b: 'inlet' }, { a: 'lost', b: 'found' }];
const nodes = ['battery', 'fuse', 'bar', 'contactor', 'branch', 'load', 'inlet', 'lost', 'found'];

it('puts what stands between the poles beyond all that it hangs on, and the rest from where it begins', () => {
  const steps = stepsFrom(['battery'], nodes, links, new Set(['load']));
  expect(Object.fromEntries(steps)).toEqual({ battery: 0, fuse: 1, contactor: 1, bar: 2, branch: 3, load: 4, inlet: 5, lost: 0, found: 1 });
});
