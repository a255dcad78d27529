/** The shape of a level in running text. */
import type { ReactElement } from 'react';
import type { Level } from '../../core/findings/finding.ts';
import { LevelMark } from '../../sheets/marks/level-mark.tsx';

/** Beside it stands the level in words; it is not read out. */
export function LevelSign({ level }: { readonly level: Level }): ReactElement {
  return <svg className="level-sign" viewBox="-2 -2 4 4" aria-hidden="true"><LevelMark level={level} x={0} y={0} size={3.2} /></svg>;
}
