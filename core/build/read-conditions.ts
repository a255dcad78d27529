/**
 * Conditions of the modes section: their text read, checked against the names of the file, and blamed at the very characters.
 */
import { checkCondition } from '../condition/check-types.ts';
import type { SettingWords, Vocabulary } from '../condition/check-types.ts';
import type { Condition } from '../condition/condition.ts';
import type { ConditionProblem, ConditionType } from '../condition/expression.ts';
import { parseCondition } from '../condition/parse.ts';
import type { Field } from '../part/field.ts';
import type { Kinds } from '../part/kind.ts';
import type { BuildPart } from './build.ts';
import { nominal, plainValues } from './plain-values.ts';
import { placeWithin } from './quantity-at.ts';
import type { Reading } from './reading.ts';
import { excerpt } from './report-problem.ts';
import type { SectionEntry } from './section-entries.ts';
import { entryOf } from './source-tree.ts';
import type { SourceScalar } from './source-tree.ts';

/** What conditions may speak of: the parts of the file with their settings and ports, its runs. Worked out when first asked. */
export function conditionVocabulary(parts: ReadonlyMap<string, BuildPart>, kinds: Kinds, reading: Reading): Vocabulary {
  const settings = new Map<string, ReadonlyMap<string, SettingWords>>();
  let points: ReadonlySet<string> | undefined;
  const plain = ({ fields }: BuildPart): never => plainValues(fields, nominal) as never;
  const allPoints = (): ReadonlySet<string> => (points ??= new Set(['chassis', ...[...parts.values()].flatMap((part) => (kinds.get(part.kind)?.ports(plain(part)) ?? []).map(({ name }) => `${part.name}.${name}`))]));
  return {
    parts: reading.names.parts, runs: reading.names.runs,
    points: allPoints, isPoint: (name) => allPoints().has(name),
    settingsOf: (name) => {
      let known = settings.get(name);
      if (!known) settings.set(name, (known = settingsOf(parts.get(name), kinds)));
      return known;
    },
    nearest: reading.nearest,
  };

  function settingsOf(part: BuildPart | undefined, all: Kinds): ReadonlyMap<string, SettingWords> {
    const kind = all.get(part?.kind ?? '');
    if (!part || !kind) return new Map();
    const words = kind.settingWords?.(plain(part)) ?? {};
    return new Map(Object.entries(kind.settings).flatMap(([setting, field]: [string, Field]) => {
      const type = typeOf(field);
      return type === undefined ? [] : [[setting, { type, words: words[setting] ?? (field.type === 'choice' ? field.choices : undefined) }] as const];
    }));
  }
}

/** Undefined for what a condition cannot compare: places, groups. */
function typeOf(field: Field): ConditionType | undefined {
  switch (field.type) {
    case 'flag': return 'bool';
    case 'count': return 'int';
    case 'text':
    case 'choice':
    case 'name': return 'string';
    case 'quantity': return field.quantity === 'ratio' || field.quantity === 'number' ? 'double' : field.quantity;
    case 'list': return field.of.type === 'text' || field.of.type === 'name' ? 'list' : undefined;
    default: return undefined;
  }
}

/** The conditions under a key of a mode; what cannot be used is left out, with a problem. */
export function readConditions(entry: SectionEntry, key: string, vocabulary: Vocabulary, reading: Reading): readonly Condition[] {
  const node = entryOf(entry.node, key)?.value;
  if (node?.form !== 'list') return [];
  return node.items.flatMap((item, index): Condition[] => {
    if (item.form !== 'scalar' || item.text.trim() === '') return [];
    const path = `${entry.path}.${key}.${index}`;
    const read = parseCondition(item.text);
    const problems = read.ok ? checkCondition(read.expression, vocabulary) : [read.problem];
    for (const problem of problems) reading.report({ code: 'bad_value', path, place: placeOf(item, problem), found: excerpt(problem.found), expected: isSentence(item.text) ? `a condition such as BRAKE.closed or V('M1.pos', 'M1.neg') > voltage('40 V'); what no wire tells stands under needs_in_words` : problem.expected, nearest: problem.nearest });
    return read.ok && problems.length === 0 ? [{ text: item.text, expression: read.expression, path }] : [];
  });
}

/** Words with nothing of a condition between them: from a time when needs were text. */
function isSentence(text: string): boolean {
  return /^[\p{L}\p{N}_-]+(?: [\p{L}\p{N}_,-]+)+\.?$/u.test(text.trim());
}

function placeOf(item: SourceScalar, { at, length }: ConditionProblem) {
  // a doubled quote or an escape in the file makes the text shorter than what stands there
  return placeWithin(item, at, length);
}
