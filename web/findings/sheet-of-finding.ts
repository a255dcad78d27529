/** The sheet on which a finding is seen best. */
import type { SheetName } from '../../sheets/sheet.ts';
import type { FindingRow } from '../../study/finding-row.ts';

const byCode: readonly (readonly [RegExp, SheetName])[] = [
  [/^pack\./, 'pack'],
  [/^mass\./, 'mass'],
  [/^high-voltage\.(precharge|inrush|link|discharge|touch-energy)/, 'precharge'],
  [/^(high|low)-voltage\.(fuse|run|cable|conductors|mains-cable|voltage-drop|string-fuse|no-dead-short|fault-opens-fuse)/, 'cables'],
  [/^high-voltage\./, 'high-voltage'],
  [/^low-voltage\./, 'low-voltage'],
  // no sheet of its own yet: what drives what in a mode is seen on the 12 V side
  [/^modes\./, 'low-voltage'],
];

export function sheetOfFinding({ code }: Pick<FindingRow, 'code'>): SheetName {
  return byCode.find(([pattern]) => pattern.test(code))?.[1] ?? 'cover';
}

/** Path of the card that a finding is about: a part, run or other entry of the file, never deeper. */
export function cardOfFinding({ path, about }: Pick<FindingRow, 'path' | 'about'>): string | undefined {
  const [section, name] = path.split('.');
  if (section !== undefined && name !== undefined && ['parts', 'runs', 'cells', 'stock', 'modes', 'removed', 'vehicle', 'conditions'].includes(section)) return section === 'vehicle' || section === 'conditions' ? section : `${section}.${name}`;
  return about.length > 0 && path !== '' && section !== undefined ? path : undefined;
}
