/** With what a joint is made, in words: tool, its insulation, torque if the file gives it. */
import type { Car } from '../car/car.ts';
import type { AssemblyStep } from './procedure.ts';

export interface JointTool {
  readonly tool: string;
  readonly insulation: string;
  /** [N·m]; undefined: the file gives none */
  readonly torque: number | undefined;
  /** bolts, washers, caps; undefined: the file says nothing */
  readonly hardware: string | undefined;
  /** where the torque stands or should stand; undefined: nothing is bolted */
  readonly torquePath: string | undefined;
}

/**
 * Hand tools for live work are made and tested for 1000 V AC and 1500 V DC: IEC 60900 (title; from memory). Also below 60 V a bare
 * spanner across two terminals welds itself fast.
 */
export function jointTool(car: Car, { joint, voltageClass }: Pick<AssemblyStep, 'joint' | 'voltageClass'>): JointTool {
  if (joint.is === 'disconnect') return { tool: 'by hand', insulation: voltageClass === 'B' ? 'face shield; look away, stand aside' : 'eye protection', torque: undefined, hardware: undefined, torquePath: undefined };
  const run = car.runs.get(joint.name);
  const torque = typeof run?.fields['torque'] === 'number' ? run.fields['torque'] : undefined;
  const hardware = typeof run?.fields['hardware'] === 'string' ? run.fields['hardware'] : undefined;
  return { tool: torque === undefined ? 'spanner; torque not in the file' : 'torque wrench', insulation: voltageClass === 'B' ? 'insulated, IEC 60900 (1000 V); face shield' : 'insulated, IEC 60900 (1000 V); eye protection', torque, hardware, torquePath: `runs.${joint.name}.torque` };
}
