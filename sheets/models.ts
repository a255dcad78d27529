/** The model of every sheet, in the order of the set. What a worker or the command line needs. */
import { coverModel } from './cover/model.ts';
import { highVoltageModel } from './high-voltage/model.ts';
import { lowVoltageModel } from './low-voltage/model.ts';
import { layoutModel } from './layout/model.ts';
import { packModel } from './pack/model.ts';
import { prechargeModel } from './precharge/model.ts';
import { cablesModel } from './cables/model.ts';
import { massModel } from './mass/model.ts';
import { assemblyModel } from './assembly/model.ts';
import { powerUpModel } from './power-up/model.ts';
import { singleFailuresModel } from './single-failures/model.ts';
import { faultFindingModel } from './fault-finding/model.ts';
import { defineModel } from './sheet.ts';
import type { SheetModel } from './sheet.ts';

export const models: readonly SheetModel<unknown>[] = [defineModel(coverModel), defineModel(layoutModel), defineModel(packModel), defineModel(highVoltageModel), defineModel(lowVoltageModel), defineModel(prechargeModel), defineModel(cablesModel), defineModel(massModel), defineModel(assemblyModel), defineModel(powerUpModel), defineModel(singleFailuresModel), defineModel(faultFindingModel)];
