/** Findings of one subject, of one level, or all. */
import { findingRow } from '../../../study/finding-row.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import type { Questions } from '../protocol.ts';

export function answerFindings({ text, about, level }: Questions['findings']['asks'], kept: KeptAnalysis): Questions['findings']['answer'] {
  return kept.of(text).findings.filter((finding) => (about === undefined || finding.about.includes(about)) && (level === undefined || finding.level === level)).map(findingRow);
}
