/** The drawing of every sheet, in the order of the set. */
import { coverDrawing } from './cover/drawing.tsx';
import { highVoltageDrawing } from './high-voltage/drawing.tsx';
import { lowVoltageDrawing } from './low-voltage/drawing.tsx';
import { layoutDrawing } from './layout/drawing.tsx';
import { packDrawing } from './pack/drawing.tsx';
import { prechargeDrawing } from './precharge/drawing.tsx';
import { cablesDrawing } from './cables/drawing.tsx';
import { massDrawing } from './mass/drawing.tsx';
import { assemblyDrawing } from './assembly/drawing.tsx';
import { powerUpDrawing } from './power-up/drawing.tsx';
import { singleFailuresDrawing } from './single-failures/drawing.tsx';
import { faultFindingDrawing } from './fault-finding/drawing.tsx';
import { defineDrawing } from './sheet.ts';
import type { SheetDrawing } from './sheet.ts';

export const drawings: readonly SheetDrawing<unknown>[] = [defineDrawing(coverDrawing), defineDrawing(layoutDrawing), defineDrawing(packDrawing), defineDrawing(highVoltageDrawing), defineDrawing(lowVoltageDrawing), defineDrawing(prechargeDrawing), defineDrawing(cablesDrawing), defineDrawing(massDrawing), defineDrawing(assemblyDrawing), defineDrawing(powerUpDrawing), defineDrawing(singleFailuresDrawing), defineDrawing(faultFindingDrawing)];
