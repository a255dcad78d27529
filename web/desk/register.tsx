/** The register of the set: every sheet with its number, the worst that stands on it, and what changed there. */
import { memo, useEffect, useMemo, useRef } from 'react';
import type { ReactElement } from 'react';
import type { Level } from '../../core/findings/finding.ts';
import { drawings } from '../../sheets/drawings.ts';
import { levelOrder, levelWords } from '../../sheets/levels.ts';
import { sheetNames } from '../../sheets/sheet.ts';
import type { SheetName } from '../../sheets/sheet.ts';
import { useActs, useBench } from '../bench.ts';
import { sheetOfFinding } from '../findings/sheet-of-finding.ts';
import { LevelSign } from '../style/level-sign.tsx';

export const Register = memo(function Register({ changedOn }: { readonly changedOn: (sheet: SheetName) => number }): ReactElement {
  const { show } = useActs();
  const open = useBench('open'), shown = useBench('sheet');
  const bySheet = useMemo(() => {
    const counts = new Map<SheetName, Map<Level, number>>();
    for (const row of open ?? []) {
      const sheet = sheetOfFinding(row);
      const levels = counts.get(sheet) ?? new Map<Level, number>();
      levels.set(row.level, (levels.get(row.level) ?? 0) + 1);
      counts.set(sheet, levels);
    }
    return counts;
  }, [open]);
  const nav = useRef<HTMLElement>(null);
  // on a narrow screen the register is wider than its place
  useEffect(() => {
    const tab = nav.current?.querySelector<HTMLElement>('[aria-current]');
    if (nav.current && tab) nav.current.scrollLeft = tab.offsetLeft - (nav.current.clientWidth - tab.offsetWidth) / 2;
  }, [shown]);
  return (
    <nav className="register" ref={nav} aria-label="Sheets of the set">
      <ol>{drawings.map(({ name, title, meaning }) => {
        const levels = bySheet.get(name) ?? new Map<Level, number>();
        const worst = levelOrder.find((level) => levels.has(level));
        const changed = changedOn(name);
        const words = [...levelOrder.flatMap((level) => (levels.has(level) ? [`${levels.get(level)} ${levelWords[level]}`] : [])), ...(changed > 0 ? [`${changed} changed`] : [])];
        return (
          <li key={name}>
            <button type="button" aria-current={shown === name ? 'page' : undefined} title={[meaning, ...words].join(' · ')} onClick={() => show(name)}>
              <span className="sheet-number">{sheetNames.indexOf(name) + 1}</span>{' '}
              <span className="sheet-title">{title}</span>
              {worst && <span className="sheet-level"><LevelSign level={worst} />{levels.get(worst)}<span className="unseen"> {levelWords[worst]}</span></span>}
              {changed > 0 && <span className="sheet-changed"><span className="changed-sign" aria-hidden="true" />{changed}<span className="unseen"> changed</span></span>}
            </button>
          </li>
        );
      })}</ol>
    </nav>
  );
});
