/** One finding: what, what to do, how sure, from where, and the ways from it to drawing, text and card. */
import { memo, useId } from 'react';
import type { ReactElement } from 'react';
import type { FindingRow } from '../../study/finding-row.ts';
import { drawingOf } from '../viewer/drawn-page.tsx';
import { cardOfFinding, sheetOfFinding } from './sheet-of-finding.ts';

export interface FindingWays {
  readonly toDrawing: (row: FindingRow) => void;
  readonly toText: (row: FindingRow) => void;
  readonly toCard: (path: string) => void;
}

/** Never 0 % or 100 % for what was merely never, or always, drawn. */
export function chanceInWords(chance: number): string {
  return chance <= 0.005 ? 'under 1 %' : chance >= 0.995 ? 'over 99 %' : `${Math.round(chance * 100)} %`;
}

function marginInWords(margin: number): string {
  const share = Math.abs(margin) * 100;
  const text = share < 0.1 ? 'under 0.1 %' : share < 10 ? `${share.toFixed(1)} %` : share > 999 ? 'over ten times' : `${Math.round(share)} %`;
  return margin < 0 ? `${text} over the limit` : `${text} of room to the limit`;
}

/** `iso-8820-3` is the key of a source; people know it as ISO 8820-3. */
export function sourceInWords(key: string): string {
  const [, body, number] = /^(abyc|astm|bs|cda|en|fmvss|iec|iso|nist|sae|ul|un)-(.+)$/.exec(key) ?? [];
  return body === undefined || number === undefined ? key.replaceAll('-', ' ') : `${body.toUpperCase()} ${/^[a-z]\w*/.test(number) ? number.replace(/^[a-z]/, (letter) => letter.toUpperCase()) : number}`;
}

/** Yes-or-no checks have a margin of -1, 0 or 1, which says nothing. */
const saysMargin = (margin: number | undefined): margin is number => margin !== undefined && ![-1, 0, 1].includes(margin);

export const FindingItem = memo(function FindingItem({ row, ways }: { readonly row: FindingRow; readonly ways: FindingWays }): ReactElement {
  const id = useId();
  const card = cardOfFinding(row);
  const measure = row.settledBy[0];
  return (
    <li className="finding" data-level={row.level} data-code={row.code}>
      <p className="statement" id={id}>{row.statement}</p>
      {row.whatToDo !== '' && <p className="do">{row.whatToDo}</p>}
      <p className="facts">
        {saysMargin(row.margin) && <span>{marginInWords(row.margin)}</span>}
        {row.chance !== undefined && <span>holds in {chanceInWords(row.chance)} of draws</span>}
        {measure && !measure.path.startsWith('handbook:') && <span>most of the doubt: <span className="mono">{measure.path}</span></span>}
        {row.needs.length > 0 && <span>needs <span className="mono">{row.needs.slice(0, 3).join(', ')}</span>{row.needs.length > 3 ? ` and ${row.needs.length - 3} more` : ''}</span>}
        {row.sources.length > 0 && <span>after {row.sources.map(sourceInWords).join(', ')}</span>}
      </p>
      <p className="ways">
        <button type="button" className="link" onClick={() => ways.toDrawing(row)} aria-describedby={id}>sheet {drawingOf(sheetOfFinding(row)).title}</button>
        <button type="button" className="link" onClick={() => ways.toText(row)} aria-describedby={id}>text{row.place ? `, line ${row.place.line}` : ''}</button>
        {card !== undefined && <button type="button" className="link" onClick={() => ways.toCard(card)} aria-describedby={id}>card {card.split('.').at(-1)}</button>}
      </p>
    </li>
  );
});
