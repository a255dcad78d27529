/** The page: the desk with the build on it, or why there is none. */
import { StrictMode, useEffect, useState } from 'react';
import type { ReactElement } from 'react';
import { createRoot } from 'react-dom/client';
import { Desk } from './desk/desk.tsx';
import { remembered } from './people/remembered.ts';
import { applyPalette, palettes, themeOfMachine } from './people/theme.ts';
import type { Opening } from './opening.ts';
import './style/fonts.css';
import './style/page.css';
import './style/desk.css';
import './style/paper.css';
import './style/findings.css';
import './style/laid.css';
import './style/start.css';
import './style/print.css';

applyPalette(palettes[remembered('theme', (value) => (value === 'paper' || value === 'blueprint' ? value : undefined)) ?? (themeOfMachine().matches ? 'blueprint' : 'paper')]);

function Page({ client, patient, file, onRestart }: Opening): ReactElement {
  const [opened, setOpened] = useState<Awaited<Opening['file']>>();
  const [restarts, setRestarts] = useState<string>();
  useEffect(() => { void file.then(setOpened); onRestart(setRestarts); }, [file, onRestart]);
  if (!opened) return <p className="waiting">Reading the build …</p>;
  if ('why' in opened) return (
    <main className="gate"><div className="gate-sheet"><h1>The build cannot be read</h1><p>It says: {opened.why}.</p><p>Is <span className="mono">halfshaft open</span> still running? Start it again and open the address that it prints.</p><button type="button" className="primary" onClick={() => location.reload()}>Try again</button></div></main>
  );
  return <Desk opened={opened} client={client} patient={patient} restarts={restarts} />;
}

/** @throws when the page has no place for it */
export function layOut(opening: Opening): void {
  const desk = document.getElementById('desk');
  if (!desk) throw new Error('the page has no place for the desk');
  createRoot(desk).render(<StrictMode><Page {...opening} /></StrictMode>);
}
