/** What this work can do to people. Stands before everything else until it was read once, then one click away. */
import { memo } from 'react';
import type { ReactElement } from 'react';
import { Laid } from '../desk/dialog.tsx';

const cautions: readonly { readonly head: string; readonly says: string }[] = [
  { head: 'High voltage kills, and burns.', says: 'Several hundred volts of direct current stop a heart and do not let go. A dropped spanner across a pack makes an arc that blinds, burns and starts a fire that only much water cools.' },
  { head: 'This program proves nothing about the vehicle in front of you.', says: 'It says what follows from the numbers in the file, and how sure they are. A wrong number, a chafed cable or a welded contact is not in the file.' },
  { head: 'Only a meter shows that a circuit is dead.', says: 'Rated for the voltage, tried on a known source before, and again after. Wait out the discharge time; capacitors hold a charge when everything is off.' },
  { head: 'Never alone, never in a hurry.', says: 'A second person who knows where to switch off and how to help. Insulated gloves rated for the voltage and tested, eye protection, insulated tools. No rings, watches, chains.' },
  { head: 'Lock it out.', says: 'Service disconnect pulled and in your pocket, 12 V battery off, wheels chocked or off the ground before the drive can turn.' },
  { head: 'Others decide.', says: 'Local codes, a licensed person and the inspection decide what may be built and driven. Get qualified help before the first link is closed, not after.' },
];

function Cautions(): ReactElement {
  return <ol className="cautions">{cautions.map(({ head, says }) => <li key={head}><strong>{head}</strong> {says}</li>)}</ol>;
}

export const CautionsDialog = memo(function CautionsDialog({ isOpen, onClose }: { readonly isOpen: boolean; readonly onClose: () => void }): ReactElement {
  return <Laid title="Cautions" isOpen={isOpen} onClose={onClose}><Cautions /></Laid>;
});

export function CautionsGate({ build, onRead }: { readonly build: string; readonly onRead: () => void }): ReactElement {
  return (
    <main className="gate">
      <div className="gate-sheet">
        <p className="label">{build === '' ? 'Halfshaft' : build}</p>
        <h1>Before you start</h1>
        <Cautions />
        <button type="button" className="primary" onClick={onRead} autoFocus>I have read this</button>
        <p className="muted">It stays one click away, under Cautions at the top.</p>
      </div>
    </main>
  );
}
