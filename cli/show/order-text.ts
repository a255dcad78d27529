/** The order of joints as a procedure, and the builder's own order beside it. */
import { contactMeetings } from '../../core/topics/pack/contact-meeting.ts';
import { stopsWords, stopWords } from '../../core/findings/open-stops.ts';
import { jointTool } from '../../core/order/joint-tool.ts';
import type { JointTool } from '../../core/order/joint-tool.ts';
import type { AssemblyStep } from '../../core/order/procedure.ts';
import { afterWords, apartWords, beforeWords, bridgeNote, bridgeWords, contactWords, coverWords, cutWords, glovesWords, storedWords, wrongBefore } from '../../core/order/step-words.ts';
import type { Say } from '../../core/order/step-words.ts';
import { takeApart } from '../../core/order/take-apart.ts';
import { printValue } from '../../core/quantity/print-value.ts';
import { jointStepIds } from '../../core/readings/assembly-steps.ts';
import { bold, faint } from './paint.ts';
import type { ShownOrder } from './order-json.ts';
import { wrapped } from './wrapped.ts';
import { CLASS_A_HIGHEST } from '../../core/physics/voltage-class.ts';

const INDENT = ' '.repeat(4);

export function orderText(shown: ShownOrder, width: number): string {
  const { build, car, plan: { battery, best }, which, isReverse, stops, wait } = shown;
  const say: Say = (si, quantity, options) => printValue(si, quantity, { system: build.units, ...options });
  const lines = [
    bold(`${build.name}: ${isReverse ? 'taking apart' : 'joining'} ${battery.live.length} high-voltage joints, ${which === 'best' ? 'best order' : 'order of the file'}`),
    ...wrapped('A battery under assembly cannot be switched off. Qualified help, a second person, gloves in date, insulated tools, no jewellery, eye protection. What follows was computed from the build file; only a meter, tried on a known source before and after, tells what is there. A wrong reading: stop, do not join.', width),
    ...(stops.length === 0 ? [] : ['', ...wrapped((isReverse ? stopsWords(stops) : stopsWords(stops, 'the joints')), width).map(bold), ...stops.flatMap((stop) => ['', ...wrapped(`■ ${stopWords(stop)}`, width - 4).map((line) => `  ${line}`)])]),
    '',
    ...wrapped(isReverse ? apartWords(car, wait, say) : `First, without voltage: ${battery.dead.map(({ name }) => name).join(', ') || 'nothing'}. Contactors open, disconnects out.`, width),
    ...(battery.unknown.length > 0 ? wrapped(`Not counted, because values are missing: ${battery.unknown.join(', ')}. Every voltage below leaves them out: complete the file first.`, width) : []),
    ...(which === 'best' && !best.isExact ? wrapped(`With so many joints not every order was tried. The sum of touchable voltages is ${say(best.sum, 'voltage')}; none can be below ${say(best.atLeast, 'voltage')}.`, width) : []),
    ...wrapped(`Touchable: with full cells, from a terminal to the chassis if the worst point of what hangs together leaks. ${bridgeNote(say)} ${isReverse ? '' : wrongBefore}`, width).map(faint),
    ...(isReverse ? [] : wrapped(`First read each module by itself, sign and size: ${battery.readings.map(({ module }) => module).join(', ')}. Write what you read with halfshaft reading: it is judged at once.`, width)),
    ...(isReverse ? apartLines(shown, say, width) : joinLines(shown, say, width)),
    '',
    ...contactMeetings(shown.car).flatMap((meeting) => [...wrapped(contactWords(meeting, say), width), '']),
    ...compared(shown, say),
  ];
  return `${lines.join('\n')}\n`;
}

const sayer = (lines: string[], width: number) => (label: string, text: string): void => { if (text !== '') lines.push(...wrapped(`${label}${text}`, width - INDENT.length).map((line) => INDENT + line)); };

function joinLines({ plan, car, holds }: ShownOrder, say: Say, width: number): string[] {
  const lines: string[] = [];
  plan.steps.forEach((step, index) => {
    const { joint } = step;
    const put = sayer(lines, width);
    const does = joint.is === 'disconnect' ? `push ${joint.name} in` : `join ${joint.name}`;
    const hold = holds.get(joint.name);
    if (hold) {
      lines.push('', bold(`[ ] ${index + 1}  HELD: do not ${does}: ${joint.a} to ${joint.b}`));
      put('Reads now: ', beforeWords(step, say));
      put('', hold.words);
      lines.push(`${INDENT}settled: __________  by: __________  at: __________`);
      return;
    }
    lines.push('', bold(`[ ] ${index + 1}  ${does}: ${joint.a} to ${joint.b}`));
    put('Before: ', beforeWords(step, say));
    put('With: ', toolWords(jointTool(car, step), step, say));
    put('After: ', afterWords(step, say));
    put('Touchable: ', `${say(step.touchable, 'voltage', { rounding: 'up' })}, class ${step.touchable > CLASS_A_HIGHEST ? 'B' : 'A'}${step.touchAt === undefined ? '' : `, at ${step.touchAt}`}`);
    put('A dropped tool: ', step.bridge ? bridgeWords(step.bridge, say) : '');
    put('In capacitors: ', storedWords(step.stored, say));
    put('Then: ', coverWords(step));
    lines.push(`${INDENT}read before: __________  after: __________   ${faint(`(${jointStepIds(joint.name).before}, .after)`)}`);
  });
  return lines;
}

/** With what a joint is made or parted, and gloves for what stands there. */
function toolWords({ tool, insulation, torque, hardware }: JointTool, { gloves, voltageClass }: Pick<AssemblyStep, 'gloves' | 'voltageClass'>, say: Say): string {
  return `${tool}${torque === undefined ? '' : `, ${say(torque, 'torque')}`}${hardware === undefined ? '' : `, ${hardware}`}; ${insulation}; gloves: ${glovesWords(gloves, voltageClass)}`;
}

function apartLines({ plan, car }: ShownOrder, say: Say, width: number): string[] {
  const lines: string[] = [];
  takeApart(plan.steps).forEach((step, index) => {
    const put = sayer(lines, width);
    const read = cutWords(step, say);
    lines.push('', bold(`[ ] ${index + 1}  ${step.joint.is === 'disconnect' ? `pull ${step.joint.name}` : `take off ${step.joint.name}`}: ${step.joint.a} to ${step.joint.b}`));
    put('Before: ', read.before);
    const { tool, insulation } = jointTool(car, step);
    put('With: ', toolWords({ tool: step.joint.is === 'run' ? 'spanner' : tool, insulation, torque: undefined, hardware: undefined, torquePath: undefined }, step, say));
    put('A dropped tool: ', step.bridge ? bridgeWords(step.bridge, say) : '');
    put('In capacitors: ', storedWords(step.stored, say));
    put('After: ', read.after);
    put('Touchable: ', `${say(step.touchableBefore, 'voltage', { rounding: 'up' })} before, ${say(step.touchable, 'voltage', { rounding: 'up' })} after`);
    put('Then: ', `cap or blanket over ${step.joint.a} and ${step.joint.b}`);
    lines.push(`${INDENT}read before: __________  after: __________`);
  });
  return lines;
}

/** Both orders side by side. */
function compared({ plan: { battery, best, own } }: ShownOrder, say: Say): string[] {
  const name = (joint: number): string => battery.live[joint]!.name;
  const width = Math.max(10, ...battery.live.map((joint) => joint.name.length));
  const cell = (joint: number, touchable: number): string => `${name(joint).padEnd(width)} ${say(touchable, 'voltage', { rounding: 'up' }).padStart(8)} ${touchable > CLASS_A_HIGHEST ? 'B' : 'A'}`;
  return [
    bold('Highest touchable voltage after each step, best order and order of the file'),
    ...best.steps.map(({ joint, touchable }, index) => `${String(index + 1).padStart(4)}  ${cell(joint, touchable)}    ${own.steps[index] ? cell(own.steps[index].joint, own.steps[index].touchable) : ''}`),
    `Steps in class B: ${best.stepsInClassB} of ${best.steps.length} in the best order, ${own.stepsInClassB} in that of the file. Sum: ${say(best.sum, 'voltage')} against ${say(own.sum, 'voltage')}.`,
  ];
}
