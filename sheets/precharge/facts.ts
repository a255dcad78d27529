/** A precharge in figures: what it fills, how far it gets, what the resistor or the converter goes through. */
import type { Car } from '../../core/car/car.ts';
import type { Finding } from '../../core/findings/finding.ts';
import { FULL_SHARE } from '../../core/topics/high-voltage/precharge.ts';
import type { PrechargeResult } from '../../core/topics/high-voltage/precharge.ts';
import { down, up } from '../shown.ts';
import type { Numbers } from '../shown.ts';
import { fewNames } from '../table/few-names.ts';
import type { Cell, Column, Row } from '../table/table.ts';

export const factColumns: readonly Column[] = [{ head: '', width: 56 }, { head: 'Computed', width: 40, align: 'end' }, { head: 'Given or allowed', width: 46, align: 'end', sure: true }];

/** @param own  findings of this precharge in this mode */
export function factsOf(result: PrechargeResult, car: Car, numbers: Numbers, own: readonly Finding[]): readonly Row[] {
  const key = `precharge.${result.mode}.${result.by}`;
  const role = car.parts.get(result.by)?.roles.prechargeResistor;
  const field = (name: string): Cell => numbers.field(`parts.${result.by}.${name}`);
  const { loads } = result;
  const every = car.modes.get(result.mode)?.every;
  const mean = own.find(({ code }) => code.endsWith('precharge-resistor-mean-power'))?.value;
  const drawn = [...(loads.power > 0 ? [numbers.say(loads.power, 'power')] : []), ...(loads.current > 0 ? [numbers.say(loads.current, 'current')] : [])].join(' and ');
  const rows: Row[] = [
    { heading: 'What is filled' },
    { cells: ['Capacitors of', fewNames(result.links, 8), numbers.result(`${key}.capacitance`, result.capacitance, 'capacitance')] },
    { cells: ['Full pack', numbers.result(`${key}.pack`, result.packVoltage, 'voltage', up), ''] },
    { cells: ['Energy in them when full', numbers.result(`${key}.stored`, (result.capacitance * result.packVoltage ** 2) / 2, 'energy', up), ''] },
    { cells: ['Draws from them meanwhile', loads.parts.length === 0 ? 'nothing above 10 W' : fewNames(loads.parts, 8), drawn] },
    { heading: 'How far it gets' },
    { cells: ['Comes to rest at', numbers.result(`${key}.end`, result.endVoltage, 'voltage', down), ''] },
    { cells: ['of the full pack', numbers.result(`${key}.share`, result.endVoltage / result.packVoltage, 'ratio', down), `${numbers.say(FULL_SHARE, 'ratio')} needed`] },
    { cells: [`${numbers.say(FULL_SHARE, 'ratio')} of the full pack after`, result.timeToFull === undefined ? { text: 'never', face: 'strong', tone: 'red' } : numbers.result(`${key}.full`, result.timeToFull, 'time', up), ''] },
    { cells: ['The mode waits', numbers.result(`${key}.lasts`, result.lasts, 'time'), result.lasts === undefined ? `needs modes.${result.mode}.lasts` : ''] },
    { cells: ['Left then', numbers.result(`${key}.residual`, result.residual === undefined ? undefined : Math.abs(result.residual), 'voltage', up), numbers.result(`${key}.allowed`, own.find(({ code }) => code.endsWith('precharge-in-time'))?.limit, 'voltage', down)] },
    { cells: ['Current at the start', numbers.result(`${key}.peak`, result.peakCurrent, 'current', up), result.kind === 'resistor' ? field('making_current') : ''] },
  ];
  if (result.kind === 'resistor') rows.push(
    { heading: 'The resistor' },
    { cells: ['Resistance, with pack and wiring', numbers.result(`${key}.resistance`, result.resistance, 'resistance'), field('resistance') ?? numbers.result(`${key}.own`, role?.resistance, 'resistance')] },
    { cells: ['Energy of one start', numbers.result(`${key}.energy`, result.resistorEnergy, 'energy', up), field('pulse_energy')] },
    { cells: ['Starts in a row: mean power', [numbers.result(`${key}.mean`, mean, 'power', up), { text: every === undefined ? 'three in ten seconds' : `one every ${numbers.say(every, 'time')}`, tone: 'muted' }], field('continuous_power')] },
    { cells: ['Onto a shorted link it bears', numbers.result(`${key}.bears`, result.bearsShortFor, 'time', down), result.lasts === undefined ? undefined : numbers.result(`${key}.lasts`, result.lasts, 'time')] },
  );
  else rows.push(
    { heading: 'The converter, from the 12 V side' },
    { cells: ['Supply at full output', numbers.result(`${key}.supply-voltage`, result.supplyVoltage, 'voltage', down), field('minimum_supply_voltage')] },
    { cells: ['Supply current', numbers.result(`${key}.supply-current`, result.supplyCurrent, 'current', up), ''] },
    { cells: ['Energy of one start', numbers.result(`${key}.supply-energy`, result.supplyEnergy, 'energy', up), ''] },
    { cells: ['Output current', '', field('output_current')] }, { cells: ['Output voltage', '', field('output_voltage')] },
  );
  return rows;
}
