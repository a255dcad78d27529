/** All findings, worst first, with what they are about to choose from. */
import { memo, useDeferredValue, useEffect, useMemo, useState } from 'react';
import type { ReactElement } from 'react';
import type { Level, TopicName } from '../../core/findings/finding.ts';
import { levelOrder, levelWords } from '../../sheets/levels.ts';
import type { FindingRow } from '../../study/finding-row.ts';
import { useActs, useBench } from '../bench.ts';
import { LevelSign } from '../style/level-sign.tsx';
import { filterFindings } from './filter-findings.ts';
import { FindingItem } from './finding-item.tsx';
import { useWays } from './use-ways.ts';

/** Rows drawn at once; more on request. */
const ROWS = 30;
const topics: Readonly<Record<TopicName, string>> = { file: 'the file', pack: 'pack', 'high-voltage': 'high voltage', 'low-voltage': 'low voltage', mass: 'mass', modes: 'modes' };

const headWords: Readonly<Record<Level, string>> = { stop: 'Stop: do not go on', fix: 'Put right before use', unknown: 'Data missing', watch: 'Watch: only just, or not surely', holds: 'Holds' };

export const FindingsList = memo(function FindingsList(): ReactElement {
  const [topic, setTopic] = useState<TopicName>();
  const [words, setWords] = useState('');
  const [onlySelected, setOnlySelected] = useState(false);
  const [limit, setLimit] = useState(ROWS);
  const [wantsHolding, setWantsHolding] = useState(false);
  const [holding, setHolding] = useState<readonly FindingRow[]>();
  const known = useBench('open'), counts = useBench('counts');
  const open = known ?? none;
  const subject = useBench('selected')?.split('.')[1];
  const wanted = useDeferredValue(words);
  const rows = useMemo(() => filterFindings(holding ? [...open, ...holding] : open, { topic, words: wanted, about: onlySelected ? subject : undefined }), [open, holding, topic, wanted, onlySelected, subject]);
  useEffect(() => { setLimit(ROWS); }, [topic, wanted, onlySelected]);
  const ways = useWays();
  const shown = rows.slice(0, limit);
  return (
    <section className="findings" aria-labelledby="findings-head">
      <h2 id="findings-head">Findings</h2>
      {counts && <p className="tally">{levelOrder.map((level) => <span key={level}><LevelSign level={level} />{counts[level]} {levelWords[level]}</span>)}</p>}
      <div className="filters" role="search" aria-label="Choose findings">
        <select aria-label="Subject of the findings" value={topic ?? ''} onChange={(event) => setTopic(event.target.value === '' ? undefined : event.target.value as TopicName)}><option value="">all subjects</option>{Object.entries(topics).map(([name, says]) => <option key={name} value={name}>{says}</option>)}</select>
        <input type="search" aria-label="Words in the findings" placeholder="words" value={words} onChange={(event) => setWords(event.target.value)} />
        {subject !== undefined && <label><input type="checkbox" checked={onlySelected} onChange={(event) => setOnlySelected(event.target.checked)} /> only {subject}</label>}
      </div>
      {levelOrder.map((level) => {
        const ofLevel = shown.filter((row) => row.level === level);
        const all = rows.filter((row) => row.level === level).length;
        return ofLevel.length === 0 ? null : (
          <div key={level} className="level-group">
            <h3><LevelSign level={level} />{headWords[level]} <span className="count">{all}</span></h3>
            <ul>{ofLevel.map((row, index) => <FindingItem key={`${row.key} ${index}`} row={row} ways={ways} />)}</ul>
          </div>
        );
      })}
      {known && rows.length === 0 && <p className="muted">{open.length === 0 && !holding ? 'Nothing that was checked stands open.' : 'No finding matches.'}</p>}
      <p className="more">
        {rows.length > limit && <button type="button" onClick={() => setLimit(limit + 4 * ROWS)}>Show {Math.min(rows.length - limit, 4 * ROWS)} more of {rows.length}</button>}
        {known && <button type="button" aria-pressed={holding !== undefined} onClick={() => setWantsHolding(!wantsHolding)}>{holding ? 'Leave out what holds' : `Show what holds${counts ? ` (${counts.holds})` : ''}`}</button>}
      </p>
      {wantsHolding && <Holding onFound={setHolding} />}
    </section>
  );
});

const none: readonly FindingRow[] = [];

/** Asks for the findings that hold, of the text as it is, for as long as they are wanted. */
function Holding({ onFound }: { readonly onFound: (rows: readonly FindingRow[] | undefined) => void }): null {
  const { ask } = useActs();
  const text = useBench('text'), study = useBench('study');
  useEffect(() => {
    let isOver = false;
    void ask('findings', { text, level: 'holds' }).then((found) => { if (!isOver) onFound(found); }, () => undefined);
    return () => { isOver = true; };
  }, [ask, text, study, onFound]);
  useEffect(() => () => onFound(undefined), [onFound]);
  return null;
}
