/** Both versions of a text, piece by piece; nothing is lost until it was chosen. */
import { useMemo, useState } from 'react';
import type { ReactElement } from 'react';
import { joinPieces, mergeTexts } from '../../core/build/merge-texts.ts';
import type { MergeChoice, MergePiece } from '../../core/build/merge-texts.ts';
import { Laid } from '../desk/dialog.tsx';

const choices: readonly (readonly [MergeChoice, string])[] = [['mine', 'keep what is on the screen'], ['theirs', 'take what is on disk'], ['both', 'both, one after the other']];

export function ConflictDialog({ base, mine, theirs, isOpen, onPutOff, onChosen }: {
  readonly base: string; readonly mine: string; readonly theirs: string; readonly isOpen: boolean; readonly onPutOff: () => void; readonly onChosen: (text: string) => void;
}): ReactElement {
  return <Laid title="Changed here and on disk" isOpen={isOpen} onClose={onPutOff} wide mustAnswer>{isOpen && <Pieces base={base} mine={mine} theirs={theirs} onPutOff={onPutOff} onChosen={onChosen} />}</Laid>;
}

function Pieces({ base, mine, theirs, onPutOff, onChosen }: { readonly base: string; readonly mine: string; readonly theirs: string; readonly onPutOff: () => void; readonly onChosen: (text: string) => void }): ReactElement {
  const { pieces } = useMemo(() => mergeTexts(base, mine, theirs), [base, mine, theirs]);
  const [chosen, setChosen] = useState<readonly (MergeChoice | undefined)[]>([]);
  const places = pieces.flatMap((piece, index) => (piece.kind === 'conflict' ? [{ piece, index }] : []));
  const open = places.filter(({ index }) => chosen[index] === undefined).length;
  const joined = joinPieces(pieces, chosen);
  const choose = (index: number, choice: MergeChoice): void => setChosen((now) => pieces.map((_, at) => (at === index ? choice : now[at])));
  const chooseAll = (choice: MergeChoice): void => setChosen(pieces.map((piece) => (piece.kind === 'conflict' ? choice : undefined)));
  return (
    <div className="conflict">
      <p>Somebody wrote the file while you changed the same lines here. What only one side changed is put together already. Choose for each place; undo still gives back what was on the screen.</p>
      <p className="button-row"><button type="button" onClick={() => chooseAll('mine')}>Screen everywhere</button><button type="button" onClick={() => chooseAll('theirs')}>Disk everywhere</button></p>
      {places.map(({ piece, index }, number) => (
        <fieldset key={index} className="conflict-place">
          <legend>Place {number + 1} of {places.length}, line {lineOf(pieces, index)}</legend>
          <Around lines={lastLines(pieces[index - 1])} />
          <div className="sides">
            <div><p className="label">on the screen</p><pre>{shown(piece.mine)}</pre></div>
            <div><p className="label">on disk</p><pre>{shown(piece.theirs)}</pre></div>
          </div>
          <Around lines={firstLines(pieces[index + 1])} />
          <div className="choice-row">{choices.map(([choice, says]) => <label key={choice}><input type="radio" name={`place-${index}`} checked={chosen[index] === choice} onChange={() => choose(index, choice)} /> {says}</label>)}</div>
        </fieldset>
      ))}
      <p className="form-end">
        <button type="button" className="primary" disabled={joined === undefined} onClick={() => { if (joined !== undefined) onChosen(joined); }}>{open === 0 ? 'Put together as chosen' : `${open} still to choose`}</button>
        <button type="button" onClick={onPutOff}>Not now</button>
      </p>
    </div>
  );
}

function Around({ lines }: { readonly lines: string }): ReactElement | null {
  return lines === '' ? null : <pre className="around">{lines}</pre>;
}

const shown = (text: string): string => (text === '' ? '(nothing)' : text.replace(/\r?\n$/, ''));

/** Text of a piece as it will most likely stand. */
function textOf(piece: MergePiece | undefined): string {
  return piece === undefined ? '' : piece.kind === 'conflict' ? piece.mine : piece.text;
}
const lastLines = (piece: MergePiece | undefined): string => textOf(piece).trimEnd().split(/\r?\n/).slice(-2).join('\n');
const firstLines = (piece: MergePiece | undefined): string => textOf(piece).trimEnd().split(/\r?\n/).slice(0, 2).join('\n');

function lineOf(pieces: readonly MergePiece[], index: number): number {
  return pieces.slice(0, index).map(textOf).join('').split('\n').length;
}
