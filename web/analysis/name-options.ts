/** Names that a field may take, each with a word about what it is. */
import type { Build } from '../../core/build/build.ts';
import type { Car } from '../../core/car/car.ts';
import type { NameField } from '../../core/part/field.ts';

export interface Option { readonly value: string; readonly says: string }

/** Lists are made once each, when first asked for. */
export function nameOptions(build: Build, car: Car): (of: NameField['of']) => readonly Option[] {
  const made = new Map<NameField['of'], readonly Option[]>();
  const make = (of: NameField['of']): readonly Option[] => {
    switch (of) {
      case 'cells': return [...build.cells.values()].map(({ name, fields }) => ({ value: name, says: typeof fields['chemistry'] === 'string' ? fields['chemistry'] : '' }));
      case 'stock': return [...build.stock.values()].map(({ name, kind }) => ({ value: name, says: kind }));
      case 'parts': return [...car.parts.values()].map(({ name, kind }) => ({ value: name, says: kind.title }));
      case 'ports': return [...car.parts.values()].flatMap(({ name, kind, ports }) => ports.map((port) => ({ value: `${name}.${port.name}`, says: `${kind.title}: ${port.meaning}` })));
      case 'runs': return [...car.runs.values()].map(({ name, from, to }) => ({ value: name, says: `${from} to ${to}` }));
      case 'modes': return [...build.modes.values()].map(({ name, meaning }) => ({ value: name, says: meaning ?? '' }));
    }
  };
  return (of) => {
    const known = made.get(of);
    if (known) return known;
    const list = make(of);
    made.set(of, list);
    return list;
  };
}
