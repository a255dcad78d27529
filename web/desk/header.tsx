/** Head of the desk, laid out as a title block: which build, the next thing to do, how the file stands, and what is always at hand. */
import { memo } from 'react';
import type { ReactElement } from 'react';
import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { useActs, useBench } from '../bench.ts';
import { sheetOfFinding } from '../findings/sheet-of-finding.ts';
import type { FileWords } from '../server-link/file-state-words.ts';

export type MenuChoice = 'fault' | 'units' | 'print' | 'start' | 'paper' | 'blueprint' | 'machine';

export const Header = memo(function Header({ name, file, onFile, onCautions, onText, onPowerUp, onMenu, theme, failure }: {
  readonly name: string; readonly file: FileWords; readonly onFile: (does: 'save' | 'choose') => void; readonly onCautions: () => void; readonly onText: () => void; readonly onPowerUp: () => void;
  readonly onMenu: (choice: MenuChoice) => void; readonly theme: 'paper' | 'blueprint' | undefined;
  /** the analysis could not be made */
  readonly failure: string | undefined;
}): ReactElement {
  const acts = useActs();
  const next = useBench('next'), undoes = useBench('undoes'), redoes = useBench('redoes'), isTextOpen = useBench('isTextOpen');
  const goThere = (): void => {
    const row = acts.now().study?.open.find(({ path }) => path === next?.path);
    if (row) acts.show(sheetOfFinding(row));
    if (next?.path !== undefined && next.path !== '') acts.select(next.path.startsWith('handbook:') ? undefined : next.path);
  };
  const button = file.button;
  return (
    <header className="head">
      <div className="head-cell build"><p className="label">Build</p><h1>{name}</h1></div>
      <div className="head-cell next">
        <p className="label">Next{next?.path !== undefined && next.path !== '' && <> <button type="button" className="link" onClick={goThere} aria-describedby="next-thing">Show it</button></>}</p>
        {failure === undefined
          ? <p className="next-words" id="next-thing" title={next?.do}>{next?.do ?? 'Reading the build …'}</p>
          : <p className="next-words" role="alert">The analysis failed ({failure}). The text is kept. Undo the last change, or go on in the text.</p>}
      </div>
      <div className={file.isTrouble ? 'head-cell file trouble' : 'head-cell file'}>
        <p className="label">File</p>
        <p role="status" className="file-state">{file.isTrouble && <span className="trouble-sign" aria-hidden="true">▲ </span>}{file.says}{button && <> <button type="button" className="link" onClick={() => onFile(button.does)}>{button.label}</button></>}</p>
      </div>
      <div className="head-cell acts" role="group" aria-label="Build">
        <button type="button" onClick={acts.undo} disabled={undoes === undefined} aria-label={undoes === undefined ? 'Undo' : `Undo ${undoes}`} title={undoes === undefined ? 'Nothing to undo' : `Undo: ${undoes} (Ctrl+Z)`}>Undo</button>
        <button type="button" onClick={acts.redo} disabled={redoes === undefined} aria-label={redoes === undefined ? 'Redo' : `Redo ${redoes}`} title={redoes === undefined ? 'Nothing to redo' : `Redo: ${redoes} (Ctrl+Shift+Z)`}>Redo</button>
        <button type="button" aria-pressed={isTextOpen} onClick={onText}>Text</button>
        <button type="button" onClick={onPowerUp} title="First power-up, one step at a time">Power-up</button>
        <button type="button" onClick={onCautions}>Cautions</button>
        <MenuTrigger>
          <Button className="menu-button">More</Button>
          <Popover className="menu-popover" placement="bottom end">
            <Menu className="menu" aria-label="More" onAction={(key) => onMenu(key as MenuChoice)}>
              <MenuItem id="fault">Why does it do nothing…</MenuItem>
              <MenuItem id="units">Units…</MenuItem>
              <MenuItem id="print">Print…</MenuItem>
              <MenuItem id="start">Guided start…</MenuItem>
              <MenuItem id="paper">{theme === 'paper' ? '• ' : ''}Paper</MenuItem>
              <MenuItem id="blueprint">{theme === 'blueprint' ? '• ' : ''}Blueprint</MenuItem>
              <MenuItem id="machine">{theme === undefined ? '• ' : ''}Paper or blueprint as the machine says</MenuItem>
            </Menu>
          </Popover>
        </MenuTrigger>
      </div>
    </header>
  );
});
