/** Draws the high-voltage diagram. */
import type { DiagramModel } from '../diagram/diagram-model.ts';
import { diagramPages } from '../diagram/diagram-pages.tsx';
import type { SheetDrawing } from '../sheet.ts';

const EMPTY = 'Nothing of the high-voltage side is in the file yet. Add battery modules, a main fuse, two contactors and a drive unit, then the runs between them.';

export const highVoltageDrawing: SheetDrawing<DiagramModel> = {
  name: 'high-voltage', title: 'High voltage', meaning: 'Both poles from the battery to everything that takes from it, with ratings, currents and prospective fault currents.',
  pages: (model) => diagramPages(model, 'High voltage', EMPTY),
};
