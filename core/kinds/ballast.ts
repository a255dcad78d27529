/**
 * Mass and nothing else: driver, passenger, payload, body panel, bracket, coolant.
 */
import { defineKind } from '../part/kind.ts';

export const ballast = defineKind({
  kind: 'ballast',
  title: 'Mass',
  family: 'mechanical',
  meaning: 'something that only weighs: driver, payload, body panel, bracket. Give it a mass and a place',
  fields: {},
  settings: {},
  ports: () => [],
  wire: () => {},
  roles: () => ({}),
  failures: [],
  observables: [],
});
