import { quantities, type QuantityName } from './quantity-table.ts';
import { units } from './unit-table.ts';

/** `a length in mm, m, in or ft`: a quantity and its usual units, for "expected …". */
export function unitPhrase(quantity: QuantityName): string {
  return quantity === 'number' ? 'a plain number without a unit' : `${withArticle(quantity)} in ${unitsInWords(quantity)}`;
}

/** `a number and a unit: a length in mm, m, in or ft` */
export function examplePhrase(quantity: QuantityName): string {
  return quantity === 'number' ? 'a number' : `a number and a unit: ${unitPhrase(quantity)}`;
}

/** `a temperature difference`, `an area` */
export function withArticle(quantity: QuantityName): string {
  const words = quantity.replaceAll('_', ' ');
  return `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words}`;
}

/** `mm, m, in or ft`: the printed forms of the table's units, metric first, AWG besides for a conductor's area; empty for a plain number. */
export function unitsInWords(quantity: QuantityName): string {
  const row = quantities[quantity];
  const printed = [...new Set([...row.metric, ...row.imperial, ...(quantity === 'area' ? ['AWG'] : [])])].map((key) => units.get(key)!.printed).filter((word) => word !== '');
  return printed.length < 2 ? printed.join('') : `${printed.slice(0, -1).join(', ')} or ${printed.at(-1)}`;
}
