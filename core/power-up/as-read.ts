/**
 * A car whose modules stand at what the builder's meter read at each of them, instead of at the charge that the file names for all: strings
 * that are not alike then read unlike. Modules without a reading stay as they are.
 *
 * Range:   readings of modules at rest; a battery that was charged since stands higher than its readings
 * Checked: core/power-up/proofs.test.ts
 */
import { answerStore, askNetwork } from '../car/ask-network.ts';
import type { Network } from '../car/ask.ts';
import type { Car, CarPart } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import { giveShape, shapeOf } from '../car/shape.ts';
import type { Instrument } from './instruments.ts';

/** Since a module was read: rest, temperature, and a few per cent of charge in or out move its voltage by about so much; our choice. */
const DRIFT = 0.01;

/**
 * What a reading of the pack's own voltage may lie off by, meter and drift since the modules were read together. Strings that stand apart by
 * more than that are still told apart.
 * @param isRead  the prediction rests on readings; by charge its spread is in the draws
 */
export function withDrift(instrument: Instrument, value: number, packVoltage: number, isRead: boolean): Instrument {
  return isRead && Math.abs(value) > packVoltage / 2 ? { ...instrument, share: Math.hypot(instrument.share, DRIFT) } : instrument;
}

export interface AsRead { readonly car: Car; readonly ask: Network }

/** The same car and network where no module was read. */
export function asRead(car: Car, ask: Network): AsRead {
  const own = carAsRead(car);
  return own === car ? { car, ask } : { car: own, ask: networkOf(own) };
}

const networkOf: (car: Car) => Network = remembered(function networkAsRead(car: Car): Network { return askNetwork(car, answerStore()); });

export const carAsRead: (car: Car) => Car = remembered(function carAsRead(car: Car): Car {
  const parts = new Map([...car.parts].map(([name, part]) => [name, partAsRead(car, part)]));
  if ([...parts].every(([name, part]) => car.parts.get(name) === part)) return car;
  const own: Car = { ...car, parts };
  // names and roles are the same: only voltages differ
  giveShape(own, shapeOf(car));
  return own;
});

function partAsRead({ conditions: usual }: Car, part: CarPart): CarPart {
  const { cell, roles } = part;
  const read = roles.cells?.measuredVoltage;
  if (!cell || read === undefined || !roles.cells || !(roles.cells.series > 0)) return part;
  const voltage = read / roles.cells.series;
  return {
    ...part, cell: { ...cell, voltage },
    now: (settings, conditions) => {
      const now = part.now(settings, conditions);
      // another charge or temperature than the car's own was asked for: the reading says nothing of it
      return now.cell === undefined || (conditions !== undefined && conditions !== usual) ? now : { ...now, cell: { ...now.cell, voltage } };
    },
  };
}
