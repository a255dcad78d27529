/** Who answers which question. */
import type { KeptAnalysis } from '../kept-analysis.ts';
import type { QuestionName, Questions } from '../protocol.ts';
import { answerCard } from './card.ts';
import { answerComplete } from './complete.ts';
import { answerEdit } from './edit.ts';
import { answerFindings } from './findings.ts';
import { answerState } from './state.ts';
import { answerKinds } from './kinds.ts';
import { answerFailures } from './failures.ts';
import { answerFault, answerFaultLine } from './fault.ts';
import { answerMeter } from './meter.ts';
import { answerGuide, answerJudge, answerProposals } from './readings.ts';
import { answerStudy } from './study.ts';
import { answerWhatIf } from './what-if.ts';

type Answers = { readonly [Q in QuestionName]: (asks: Questions[Q]['asks'], kept: KeptAnalysis) => Questions[Q]['answer'] | Promise<Questions[Q]['answer']> };

export const answers: Answers = {
  study: (asks, kept) => answerStudy(asks, kept, () => performance.now()),
  begin: ({ text }, kept) => { kept.of(text); return undefined; },
  findings: answerFindings,
  state: answerState,
  edit: answerEdit,
  card: answerCard,
  kinds: answerKinds,
  complete: answerComplete,
  meter: answerMeter,
  fault: answerFault,
  fault_line: answerFaultLine,
  failures: answerFailures,
  what_if: answerWhatIf,
  guide: answerGuide,
  judge: answerJudge,
  proposals: answerProposals,
};
