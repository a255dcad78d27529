/** The sheets of the set, for the list on the cover. The titles are those of the drawings (tested). */
import type { SheetName } from '../sheet.ts';

export const setList: Readonly<Record<SheetName, { readonly title: string; readonly answers: string }>> = {
  cover: { title: 'Cover', answers: 'what stands open, what to do next' },
  layout: { title: 'Layout', answers: 'where every part sits' },
  pack: { title: 'Pack', answers: 'modules, links, voltages' },
  'high-voltage': { title: 'High voltage', answers: 'wiring diagram of both poles' },
  'low-voltage': { title: 'Low voltage', answers: 'feeds, fuses, consumers' },
  precharge: { title: 'Precharge', answers: 'filling and emptying the capacitors' },
  cables: { title: 'Cables and fuses', answers: 'every run and fuse with its margin' },
  mass: { title: 'Mass', answers: 'axle loads and balance' },
  assembly: { title: 'Assembly', answers: 'order of the high-voltage joints' },
  'power-up': { title: 'First power-up', answers: 'checklist with predicted readings' },
  'single-failures': { title: 'Single failures', answers: 'what each does, what tells of it' },
  'fault-finding': { title: 'Fault finding', answers: 'what was seen, what remains' },
};
