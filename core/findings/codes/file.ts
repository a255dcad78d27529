/** Findings about the build file itself: one code a group of problems. */
import type { CodeRow } from '../code-row.ts';

const whatIsRead = 'the reader uses every value that it understands and lists every other one with its place';

export const fileCodes: readonly CodeRow[] = [
  {
    code: 'file.value-usable', topic: 'file', title: 'Every value in the file can be used', formula: whatIsRead, sources: ['common-practice'],
    why: 'A value that is not understood is left out, and everything that rests on it is left out with it.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: 'Every value in the file can be used.', broken: '{message}', unknown: 'The file could not be read.' },
    whatToDo: 'Correct the text at the place named.',
  },
  {
    code: 'file.value-given', topic: 'file', title: 'Every value that only the builder can know is given', formula: whatIsRead, sources: ['common-practice'],
    why: 'The tool never puts a silent default in place of a missing number.',
    whenBroken: 'fix', nearMargin: 0,
    wording: { holds: '{about} says all that it must.', broken: '{about} lacks values.', unknown: '{message}' },
    whatToDo: 'Measure it, read it off the label, or write an estimate with a wide tolerance.',
  },
  {
    code: 'file.readable', topic: 'file', title: 'The file is YAML that can be read', formula: 'YAML 1.2, at most 1 MB, nested at most 40 deep', sources: ['common-practice'],
    why: 'Nothing can be said about a car whose file cannot be read.',
    whenBroken: 'stop', nearMargin: 0,
    wording: { holds: 'The file is readable.', broken: '{message}', unknown: 'The file could not be read.' },
    whatToDo: 'Correct the text at the place named.',
  },
];
