/** Lines of a fault-finding conversation that say nothing of the car: that something is taken back, that it is ended. */
import { OBSERVATION } from './reading.ts';
import type { Reading } from './reading.ts';

export type FaultCells = Pick<Reading, 'procedure' | 'step' | 'state' | 'points' | 'quantity' | 'reading' | 'replaces' | 'note'>;

export const ENDED = 'ended', WITHDRAWN = 'withdrawn';

/** @param name  of the conversation @param id  of the line that is taken back */
export const takenBackCells = (name: string, id: string): FaultCells => ({ procedure: 'fault', step: name, state: '', points: [], quantity: OBSERVATION, reading: WITHDRAWN, replaces: id, note: '' });

/** @param note  what came of it */
export const endCells = (name: string, note: string): FaultCells => ({ procedure: 'fault', step: name, state: '', points: [ENDED], quantity: OBSERVATION, reading: 'yes', replaces: '', note });
