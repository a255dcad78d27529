/** Who answers which question. */
import { studyOf } from '../../../study/study.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import type { QuestionName, Questions } from '../protocol.ts';
import { answerCard } from './card.ts';
import { answerComplete } from './complete.ts';
import { answerEdit } from './edit.ts';
import { answerFindings } from './findings.ts';
import { answerState } from './state.ts';
import { answerKinds } from './kinds.ts';
import { answerFailures } from './failures.ts';
import { answerFault, answerFaultAhead, answerFaultExpected, answerFaultLine } from './fault.ts';
import { answerMeter } from './meter.ts';
import { answerGuide, answerJudge, answerProposals } from './readings.ts';
import { revisionOf } from '../revision-of.ts';
import { answerWhatIf } from './what-if.ts';

type Answers = { readonly [Q in QuestionName]: (asks: Questions[Q]['asks'], kept: KeptAnalysis) => Questions[Q]['answer'] | Promise<Questions[Q]['answer']> };

export const answers: Answers = {
  study: (asks, kept) => studyOf(asks, kept, { now: () => performance.now(), revisionOf }),
  begin: ({ text }, kept) => { kept.of(text); return undefined; },
  findings: answerFindings,
  state: answerState,
  edit: answerEdit,
  card: answerCard,
  kinds: answerKinds,
  complete: answerComplete,
  meter: answerMeter,
  fault: answerFault,
  fault_ahead: (asks, kept) => answerFaultAhead(asks, kept, () => performance.now()),
  fault_line: answerFaultLine,
  fault_expected: answerFaultExpected,
  failures: answerFailures,
  what_if: answerWhatIf,
  guide: answerGuide,
  judge: answerJudge,
  proposals: answerProposals,
};

type Afterwards = { readonly [Q in QuestionName]?: (asks: Questions[Q]['asks'], answer: Questions[Q]['answer'], kept: KeptAnalysis) => void };

/** What the page asks next after an answer, worked out while it is busy with that one. Whatever goes wrong goes wrong again, and is told, when it is asked for. */
export const afterwards: Afterwards = {
  edit: (_, answer, kept) => { if (answer.ok) kept.of(answer.text); },
};
