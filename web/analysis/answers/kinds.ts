/** Kinds of part that can be added, with what each requires. */
import { partFields } from '../../../core/build/read-parts.ts';
import { template } from '../card-field.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import { nameOptions } from '../name-options.ts';
import type { Questions } from '../protocol.ts';

export function answerKinds({ text }: Questions['kinds']['asks'], kept: Pick<KeptAnalysis, 'of' | 'words'>): Questions['kinds']['answer'] {
  const analysis = text === undefined ? undefined : kept.of(text);
  const source = analysis && { names: nameOptions(analysis.build, analysis.car) };
  return [...kept.words.kinds.values()].map(({ kind, title, family, meaning, fields }) => ({
    kind, title, family, meaning,
    required: Object.entries(partFields(fields)).filter(([, field]) => field.need === 'required').map(([name, field]) => template(field, source, undefined, name)),
  }));
}
