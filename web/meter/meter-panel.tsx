/** Two probes on two points, and what a meter would show there in the chosen state. */
import { memo, useEffect, useState } from 'react';
import type { ReactElement } from 'react';
import { printValue } from '../../core/quantity/print-value.ts';
import { printAs } from '../../sheets/unit-choice.ts';
import { useActs, useBench } from '../bench.ts';
import type { Bench } from '../bench.ts';
import { Pick } from '../card/pick.tsx';
import { stateInWords } from '../viewer/state-in-words.ts';
import { bandOf } from './band.ts';
import { useReading } from './use-reading.ts';
import type { Reading } from './use-reading.ts';
import './meter.css';
import { CLASS_A_HIGHEST } from '../../core/physics/voltage-class.ts';
import { pointNamed } from '../../core/car/point-named.ts';

interface Noted { readonly key: string; readonly red: string; readonly black: string; readonly state: Bench['choices']['state']; readonly says: string }
/** Readings of this session, newest first; they outlive the panel. */
let noted: readonly Noted[] = [];
const MOST_NOTED = 12;
export const MeterPanel = memo(function MeterPanel(): ReactElement {
  const { setMeter, choose } = useActs();
  const meter = useBench('meter'), choices = useBench('choices');
  const points = useBench('outline')?.points ?? [];
  const reading = useReading(meter.red, meter.black);
  const list = useNoted(reading, meter, choices);
  const options = points.map((point) => ({ value: point, says: '' }));
  const put = (lead: 'red' | 'black') => (typed: string): Promise<string | undefined> => {
    const point = pointNamed(typed, (name) => points.includes(name));
    const isKnown = points.includes(point);
    // a reading of where the lead was before must not stand under another name
    setMeter({ ...meter, [lead]: isKnown ? point : undefined });
    return Promise.resolve(isKnown || point === '' ? undefined : `There is no point ${point}. Choose one of the list, or pick it on the drawing.`);
  };
  return (
    <div className="meter">
      <div className="meter-head"><h2>Meter</h2><button type="button" className="quiet" onClick={() => setMeter({ ...meter, isOut: false })}>Put away</button></div>
      <p className="hint">Pick two points on the drawing, or name them here. State: <strong>{stateInWords(choices.state)}</strong>.</p>
      <div className="leads">
        <div className="lead" data-lead="red"><Pick label="red lead (+)" written={meter.red ?? ''} options={options} placeholder="M1.pos" onCommit={put('red')} /></div>
        <div className="lead" data-lead="black"><Pick label="black lead (−)" written={meter.black ?? ''} options={options} placeholder="chassis" onCommit={put('black')} /></div>
      </div>
      <p className="field-ways">
        <button type="button" disabled={meter.red === undefined && meter.black === undefined} onClick={() => setMeter({ isOut: true, red: meter.black, black: meter.red })}>Swap the leads</button>
        <button type="button" disabled={meter.red === undefined && meter.black === undefined} onClick={() => setMeter({ isOut: true, red: undefined, black: undefined })}>Take both off</button>
      </p>
      <Dial reading={reading} meter={meter} units={choices.units} />
      {list.length > 0 && (
        <section aria-label="Readings of this session">
          <h3>Read so far</h3>
          <ol className="noted">{list.map((each) => (
            <li key={each.key}><button type="button" className="link" onClick={() => { setMeter({ isOut: true, red: each.red, black: each.black }); choose({ state: each.state }); }}>{each.red} to {each.black}</button> <span>{each.says}</span> <span className="muted">{stateInWords(each.state)}</span></li>
          ))}</ol>
        </section>
      )}
      <ul className="cautions-short">
        <li>A model never proves that a circuit is dead. Only a meter does, tried on a known source before and after.</li>
        <li>Meter, leads and gloves rated for the voltage and category of the circuit; fingers behind the guards, one hand where you can, a second person there.</li>
      </ul>
    </div>
  );
});

function Dial({ reading, meter, units }: { readonly reading: Reading | undefined; readonly meter: Bench['meter']; readonly units: Bench['choices']['units'] }): ReactElement {
  if (meter.red === undefined || meter.black === undefined) return <p className="dial muted" role="status">{meter.red === undefined ? 'The red lead is not on anything yet.' : 'Now the black lead.'}</p>;
  if (!reading) return <p className="dial muted" role="status">Reading …</p>;
  if (reading.outcome !== 'reads' || reading.voltage === undefined) return <div className="dial" role="status">{reading.outcome === 'failed' && <p>The network has no operating point in this state.</p>}{reading.problems.map((problem) => <p key={problem} className="refusal">{problem}</p>)}</div>;
  const volts = (value: number): string => printValue(value, 'voltage', printAs(units, 'voltage'));
  const band = bandOf(reading.drawn);
  const highest = Math.max(Math.abs(reading.voltage), Math.abs(band?.low ?? 0), Math.abs(band?.high ?? 0));
  return (
    <div className="dial" role="status">
      <p className="reads" data-reads={reading.voltage}>{volts(reading.voltage)}</p>
      <p>{band ? (volts(band.low) === volts(band.high) ? 'The same to this precision in all draws.' : `19 of 20 draws between ${volts(band.low)} and ${volts(band.high)}.`) : 'How sure: drawing …'} {band && <span className="muted">{reading.drawn.length} draws{reading.isDone ? '' : ', more to come'}</span>}</p>
      {highest > CLASS_A_HIGHEST && <p className="above"><span aria-hidden="true">▲</span> More than 60 V: it can kill. {reading.isFloating ? '' : 'Expect it there until a meter has shown otherwise.'}</p>}
      {reading.isFloating && <p>Nothing but the meter joins these two points. It settles near 0 V, whatever the voltage between them was. That is no proof that either is dead.</p>}
      {reading.isStalled && <p>Precharge from empty never finishes in this mode. The reading is for capacitors that are full already.</p>}
    </div>
  );
}

/** Writes down every reading once it has a band, and says it; a surer one of the same takes its place. */
function useNoted(reading: Reading | undefined, meter: Bench['meter'], choices: Bench['choices']): readonly Noted[] {
  const { announce } = useActs();
  const [list, setList] = useState(noted);
  useEffect(() => {
    const { red, black } = meter;
    const band = reading && bandOf(reading.drawn);
    // the leads and the state belong to the reading: it is taken away when they change
    if (!band || reading.voltage === undefined || red === undefined || black === undefined) return;
    const volts = (value: number): string => printValue(value, 'voltage', printAs(choices.units, 'voltage'));
    const says = `${volts(reading.voltage)}${volts(band.low) === volts(band.high) ? '' : ` (${volts(band.low)} to ${volts(band.high)})`}${reading.isFloating ? ', floating' : ''}`;
    const key = JSON.stringify([red, black, choices.state]);
    const isNew = noted[0]?.key !== key;
    noted = [{ key, red, black, state: choices.state, says }, ...noted.filter((each) => each.key !== key)].slice(0, MOST_NOTED);
    setList(noted);
    if (isNew) announce(`${red} to ${black}: ${says}`);
  }, [reading]);
  return list;
}
