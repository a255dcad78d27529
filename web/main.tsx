/** Opens the build and lays it on the desk. */
import { StrictMode, useEffect, useState } from 'react';
import type { ReactElement } from 'react';
import { createRoot } from 'react-dom/client';
import { analysisClient } from './analysis/client.ts';
import { Desk } from './desk/desk.tsx';
import type { OnDisk } from './document/document.ts';
import { remembered } from './people/remembered.ts';
import { applyPalette, palettes, themeOfMachine } from './people/theme.ts';
import { buildFile } from './server-link/build-file.ts';
import './style/fonts.css';
import './style/page.css';
import './style/desk.css';
import './style/paper.css';
import './style/findings.css';
import './style/laid.css';
import './style/start.css';
import './style/print.css';

let tellRestart: (why: string) => void = () => undefined;
const client = analysisClient(() => new Worker(new URL('./analysis/analysis-worker.ts', import.meta.url), { type: 'module' }), (why) => tellRestart(why));
const opening = buildFile.get();

applyPalette(palettes[remembered('theme', (value) => (value === 'paper' || value === 'blueprint' ? value : undefined)) ?? (themeOfMachine().matches ? 'blueprint' : 'paper')]);

type Opened = { readonly disk: OnDisk; readonly name: string } | { readonly why: string };

function Page(): ReactElement {
  const [opened, setOpened] = useState<Opened>();
  const [restarts, setRestarts] = useState<string>();
  useEffect(() => { void opening.then(setOpened); tellRestart = setRestarts; }, []);
  if (!opened) return <p className="waiting">Reading the build …</p>;
  if ('why' in opened) return (
    <main className="gate"><div className="gate-sheet"><h1>The build cannot be read</h1><p>It says: {opened.why}.</p><p>Is <span className="mono">halfshaft open</span> still running? Start it again and open the address that it prints.</p><button type="button" className="primary" onClick={() => location.reload()}>Try again</button></div></main>
  );
  return <Desk opened={opened} client={client} restarts={restarts} />;
}

const desk = document.getElementById('desk');
if (!desk) throw new Error('the page has no place for the desk');
createRoot(desk).render(<StrictMode><Page /></StrictMode>);
