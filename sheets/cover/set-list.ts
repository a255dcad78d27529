/** The sheets of the set, for the list on the cover. The titles are those of the drawings (tested). */
import type { SheetName } from '../sheet.ts';

export const setList: Readonly<Record<SheetName, { readonly title: string; readonly answers: string }>> = {
  cover: { title: 'Cover', answers: 'what stands open' },
  layout: { title: 'Layout', answers: 'where every part sits' },
  pack: { title: 'Pack', answers: 'modules, links, voltages' },
  'high-voltage': { title: 'High voltage', answers: 'diagram of both poles' },
  'low-voltage': { title: 'Low voltage', answers: 'feeds, fuses, consumers' },
  precharge: { title: 'Precharge', answers: 'filling the capacitors' },
  cables: { title: 'Cables and fuses', answers: 'every run and fuse' },
  mass: { title: 'Mass', answers: 'axle loads and balance' },
  assembly: { title: 'Assembly', answers: 'order of the joints' },
  'power-up': { title: 'First power-up', answers: 'checklist, readings' },
  'single-failures': { title: 'Single failures', answers: 'what each one does' },
  'fault-finding': { title: 'Fault finding', answers: 'what remains' },
};
