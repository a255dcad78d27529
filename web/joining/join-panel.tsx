/** A new run: two ports, picked on the drawing or named here, then what it is cut from and what it is called. */
import { memo, useEffect, useState } from 'react';
import type { ReactElement } from 'react';
import { useActs, useBench } from '../bench.ts';
import type { Outline } from '../../study/outline.ts';
import { Pick } from '../card/pick.tsx';
import { proposedRunName } from '../card/names.ts';
import { doubtAbout, portAt, proposedStock, whyNot } from './joinable.ts';
import './joining.css';

export const JoinPanel = memo(function JoinPanel(): ReactElement {
  const outline = useBench('outline');
  return outline ? <Joining outline={outline} /> : <p className="muted">Looking …</p>;
});

function Joining({ outline }: { readonly outline: Outline }): ReactElement {
  const { announce, setJoining } = useActs();
  const joining = useBench('joining');
  const [ends, setEnds] = useState<{ readonly from?: string | undefined; readonly to?: string | undefined }>({});
  const [refusal, setRefusal] = useState<string>();

  // what is picked on the drawing arrives here, one point after the other
  useEffect(() => {
    if (typeof joining !== 'string') return;
    if (joining === ends.from || joining === ends.to) return;
    const why = whyNot(joining, outline, ends.from);
    setRefusal(why);
    if (why !== undefined) { announce(why); return; }
    setEnds(ends.from === undefined ? { from: joining } : { ...ends, to: joining });
    announce(ends.from === undefined ? `${joining} is the first end. Pick the second.` : `${ends.from} to ${joining}: choose the stock and add the run.`);
    // the outline changes with every edit; only a new pick counts
  }, [joining]);

  const withRoom = outline.parts.flatMap((part) => part.ports.filter((port) => port.free > 0).map((port) => ({ value: port.point, says: `${part.title}, ${port.carries.replaceAll('_', ' ')}` })));
  const put = (end: 'from' | 'to') => (point: string): Promise<string | undefined> => {
    const why = point === '' ? undefined : whyNot(point, outline, end === 'from' ? ends.to : ends.from);
    if (why === undefined) { setEnds((now) => ({ ...now, [end]: point === '' ? undefined : point })); setRefusal(undefined); }
    return Promise.resolve(why);
  };
  const close = (): void => setJoining(undefined);
  return (
    <div className="joining" onKeyDown={(event) => { if (event.key === 'Escape' && !event.defaultPrevented) { event.preventDefault(); close(); } }}>
      <div className="meter-head"><h2>Join two ports</h2><button type="button" className="quiet" onClick={close}>Leave it</button></div>
      <p className="hint">{ends.from === undefined ? 'Pick the first port on the drawing, or name it.' : ends.to === undefined ? 'Now the second port.' : 'What is it cut from?'}</p>
      <Pick label="from" written={ends.from ?? ''} options={withRoom} placeholder="M1.pos" onCommit={put('from')} />
      <Pick label="to" written={ends.to ?? ''} options={withRoom} placeholder="M2.neg" onCommit={put('to')} />
      {refusal !== undefined && <p className="refusal" role="alert">{refusal}</p>}
      {ends.from !== undefined && ends.to !== undefined && <NewRun key={`${ends.from} ${ends.to}`} from={ends.from} to={ends.to} outline={outline} onDone={close} />}
    </div>
  );
}

function NewRun({ from, to, outline, onDone }: { readonly from: string; readonly to: string; readonly outline: Outline; readonly onDone: () => void }): ReactElement {
  const acts = useActs();
  const [name, setName] = useState(() => proposedRunName(outline.runs));
  const [stock, setStock] = useState(() => proposedStock(from, to, outline) ?? '');
  const [kind, setKind] = useState(() => (portAt(from, outline)?.carries === 'high_voltage' ? 'cable' : 'wire'));
  const [length, setLength] = useState('');
  const [refusal, setRefusal] = useState<string>();
  const doubt = doubtAbout(from, to, outline);
  const add = async (): Promise<void> => {
    const fields = { ...(stock === '' ? { kind } : { stock }), ...(length.trim() === '' ? {} : { length: length.trim() }) };
    const problem = await acts.edit([{ do: 'add_run', name, from, to, fields }], `${name} from ${from} to ${to}`);
    setRefusal(problem);
    if (problem !== undefined) return;
    acts.select(`runs.${name}`);
    acts.announce(`${name} joins ${from} and ${to}.`);
    onDone();
  };
  return (
    <form className="new-run" onSubmit={(event) => { event.preventDefault(); void add(); }}>
      {doubt !== undefined && <p className="doubt"><span aria-hidden="true">▲</span> {doubt}</p>}
      <label className="typed">cut from <select value={stock} onChange={(event) => setStock(event.target.value)}>{outline.stock.map((each) => <option key={each.name} value={each.name}>{each.name} ({each.kind})</option>)}<option value="">no stock: of its own kind</option></select></label>
      {stock === '' && <label className="typed">kind <select value={kind} onChange={(event) => setKind(event.target.value)}>{['cable', 'wire', 'busbar'].map((each) => <option key={each} value={each}>{each}</option>)}</select></label>}
      <label className="typed">length <input value={length} placeholder="silent: along the route" autoComplete="off" spellCheck={false} onChange={(event) => setLength(event.target.value)} /></label>
      <label className="typed">name <input value={name} autoComplete="off" spellCheck={false} onChange={(event) => setName(event.target.value)} /></label>
      {refusal !== undefined && <p className="refusal" role="alert">{refusal}</p>}
      <p className="field-ways"><button type="submit" className="primary">Add the run</button></p>
    </form>
  );
}
