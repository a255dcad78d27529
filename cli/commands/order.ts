/** halfshaft order BUILD */
import { words } from '../../catalogue/words.ts';
import { analyse } from '../../core/analyse.ts';
import { assemblyPlan } from '../../core/order/assembly-plan.ts';
import { openBuild } from '../open-build.ts';
import { orderJson } from '../show/order-json.ts';
import { orderText } from '../show/order-text.ts';
import { textWidth } from '../show/text-width.ts';
import type { Terminal } from '../terminal.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options { readonly json?: boolean; readonly own?: boolean; readonly reverse?: boolean }

export function order(path: string, options: Options, terminal: Terminal): void {
  const { build, car } = analyse(openBuild(path).text, words, { only: [] });
  const which = options.own === true ? 'own' : 'best';
  const plan = assemblyPlan(car, which);
  if (plan.outcome === 'nothing') throw new WrongCall(`${path} has no high-voltage joint that its battery reaches, so there is nothing to order.`);
  if (plan.outcome === 'impossible') throw new WrongCall(`These joints wait for each other, so there is no order: ${plan.joints.join(', ')}. See after and before of the runs.`);
  const shown = { build, car, plan, which, isReverse: options.reverse === true } as const;
  terminal.print(options.json === true ? `${JSON.stringify(orderJson(shown), null, 2)}\n` : orderText(shown, textWidth(terminal)));
}
