/** Draws the low-voltage diagram. */
import type { DiagramModel } from '../diagram/diagram-model.ts';
import { diagramPages } from '../diagram/diagram-pages.tsx';
import type { SheetDrawing } from '../sheet.ts';

const EMPTY = 'Nothing of the low-voltage side is in the file yet. Add its battery and a DC-DC converter, a fuse for each wire that leaves them, the consumers, and the runs between them.';

export const lowVoltageDrawing: SheetDrawing<DiagramModel> = {
  name: 'low-voltage', title: 'Low voltage', meaning: 'Sources, fuses, consumers and signals of the 12 V side, with voltages and currents in the chosen state.',
  pages: (model) => diagramPages(model, 'Low voltage', EMPTY),
};
