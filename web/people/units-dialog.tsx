/** Units: a system for everything, and another unit for single quantities. */
import { memo } from 'react';
import type { ReactElement } from 'react';
import { quantities } from '../../core/quantity/quantity-table.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import { Laid } from '../desk/dialog.tsx';
import { asTheFileSays, unitsFor } from './unit-preference.ts';
import type { UnitPreference } from './unit-preference.ts';

const systems = [['file', 'as the file says'], ['metric', 'metric'], ['imperial', 'imperial']] as const;

export const UnitsDialog = memo(function UnitsDialog({ isOpen, onClose, preference, used, ofFile, onChoose }: {
  readonly isOpen: boolean; readonly onClose: () => void; readonly preference: UnitPreference; readonly used: readonly QuantityName[];
  readonly ofFile: 'metric' | 'imperial'; readonly onChoose: (preference: UnitPreference) => void;
}): ReactElement {
  const set = (quantity: QuantityName, key: string): void => {
    const { [quantity]: _, ...others } = preference.byQuantity;
    onChoose({ ...preference, byQuantity: key === '' ? others : { ...others, [quantity]: key } });
  };
  const system = preference.system === 'file' ? ofFile : preference.system;
  return (
    <Laid title="Units" isOpen={isOpen} onClose={onClose}>
      <p>Sheets, cards and findings are shown in these. The file keeps the units it was written in.</p>
      <fieldset className="choice-row"><legend>System</legend>
        {systems.map(([value, says]) => <label key={value}><input type="radio" name="system" checked={preference.system === value} onChange={() => onChoose({ ...preference, system: value })} /> {says}{value === 'file' ? ` (${ofFile})` : ''}</label>)}
      </fieldset>
      <table className="schedule">
        <caption>Quantities in this build</caption>
        <thead><tr><th scope="col">quantity</th><th scope="col">shown in</th></tr></thead>
        <tbody>{used.filter((name) => unitsFor(name).length > 1).map((name) => (
          <tr key={name}>
            <th scope="row">{name.replaceAll('_', ' ')}</th>
            <td><select aria-label={`unit of ${name.replaceAll('_', ' ')}`} value={preference.byQuantity[name] ?? ''} onChange={(event) => set(name, event.target.value)}>
              <option value="">{`${system}: ${quantities[name][system].join(', ')}`}</option>
              {unitsFor(name).map(({ key, printed }) => <option key={key} value={key}>{printed === '' ? 'plain number' : printed}</option>)}
            </select></td>
          </tr>
        ))}</tbody>
      </table>
      <p><button type="button" onClick={() => onChoose(asTheFileSays)}>Everything as the file says</button></p>
    </Laid>
  );
});
