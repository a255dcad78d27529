/** Fields that hold others: a place or size of three numbers, a group, a list, names with values. */
import { useId, useState } from 'react';
import type { ComponentType, ReactElement } from 'react';
import type { Entered } from '../../core/build/write-value.ts';
import type { CardField } from '../analysis/protocol.ts';
import { useActs } from '../bench.ts';
import { inWords } from './names.ts';
import { Pick } from './pick.tsx';
import { TextField } from './text-field.tsx';
import { labelOf, useTyping, useWriting } from './writing.ts';

/** Three numbers. A bare number keeps the unit, tolerance and basis that stood there. */
export function FieldTriple({ field }: { readonly field: CardField }): ReactElement {
  const id = useId();
  const acts = useActs();
  const remove = useWriting(field, false);
  const typing = useTyping();
  const [drafts, setDrafts] = useState<Readonly<Record<string, string>>>({});
  const isWritten = field.written !== '';
  const write = (axis: CardField) => async (text: string): Promise<string | undefined> => {
    if (isWritten) {
      if (text === '') return 'A number with its unit is needed here; Escape brings back what was written.';
      return acts.edit([{ do: 'set', path: axis.path, to: withTail(text, axis.written) }], labelOf(field));
    }
    const all = { ...drafts, [axis.name]: text };
    setDrafts(all);
    const [x = '', y = '', z = ''] = field.fields.map(({ name }) => all[name] ?? '');
    if (x === '' || y === '' || z === '') return undefined;
    const problem = await acts.edit([{ do: 'set', path: field.path, to: field.type === 'position' ? [x, y, z] : `${x} x ${y} x ${z}` }], labelOf(field));
    if (problem === undefined) setDrafts({});
    return problem;
  };
  const waits = !isWritten && Object.values(drafts).some((text) => text !== '');
  return (
    <fieldset className="field triple" data-need={field.need} data-written={isWritten ? '' : undefined}>
      <legend>{inWords(field.name)}</legend>
      <div className="triple-line">
        {field.fields.map((axis) => (
          <div key={axis.name}>
            <TextField label={axis.name} written={isWritten ? axis.written : drafts[axis.name] ?? ''} placeholder={axis.example} problems={axis.problems} path={axis.path} describedBy={`${id}-${axis.name}`} isNumber onTyping={isWritten ? (text) => typing(axis.path, withTail(text, axis.written)) : undefined} onCommit={write(axis)} />
            <p className="field-about" id={`${id}-${axis.name}`}>{axis.meaning}{axis.instead === undefined ? '' : <span className="silent">; {axis.instead}</span>}</p>
          </div>
        ))}
      </div>
      <p className="field-about">{field.meaning}{isWritten ? '' : <span className="silent">; {waits ? 'written once all three are there' : field.need === 'required' ? 'required' : 'not given'}</span>}{field.problems.length > 0 && <span className="refusal"> {field.problems.join(' ')}</span>}</p>
      {isWritten && field.need !== 'required' && <p className="field-ways"><button type="button" onClick={() => void remove('')}>Take {field.type === 'position' ? 'the place' : 'the size'} out</button></p>}
    </fieldset>
  );
}

/** `272` typed over `262 mm ±10 measured` is `272 mm ±10 measured`. */
export function withTail(typed: string, before: string): string {
  const number = /^[~≈+\-−]?[\d.,/½¼¾ ]+/;
  if (typed.replace(number, '') !== '' || !number.test(typed)) return typed;
  const tail = before.replace(number, '');
  return tail === '' ? typed : `${typed.trimEnd()} ${tail}`;
}

/** @param Inner  draws what is in it, which may be a group again */
export function FieldGroup({ field, canRemove, Inner }: { readonly field: CardField; readonly canRemove: boolean; readonly Inner: ComponentType<{ readonly field: CardField; readonly canRemove?: boolean }> }): ReactElement {
  const acts = useActs();
  const name = inWords(field.name);
  const isWritten = field.written !== '' || field.fields.length > 0;
  const isCollection = field.type !== 'group';
  const remove = (): void => { void acts.edit([{ do: 'remove', path: field.path }], `${labelOf(field)} taken out`).then((problem) => { if (problem !== undefined) acts.announce(problem); }); };
  return (
    <fieldset className="field group" data-need={field.need} data-written={field.written === '' ? undefined : ''}>
      <legend>{/^\d+$/.test(field.name) ? `number ${Number(field.name) + 1}` : name}</legend>
      <p className="field-about">{field.meaning}{field.written === '' && isCollection && field.fields.length === 0 ? <span className="silent">; {field.need === 'required' ? 'required' : 'not given'}</span> : ''}</p>
      {field.problems.length > 0 && <p className="refusal">{field.problems.join(' ')}</p>}
      {field.fields.map((inner) => <Inner key={inner.path} field={inner} canRemove={isCollection} />)}
      {isCollection && <AddItem field={field} />}
      {isWritten && field.written !== '' && (canRemove || field.need !== 'required') && <p className="field-ways"><button type="button" onClick={remove}>Take out {/^\d+$/.test(field.name) ? `number ${Number(field.name) + 1}` : name}</button></p>}
    </fieldset>
  );
}

/** A new item at the end of a list, or a new name with its value. */
function AddItem({ field }: { readonly field: CardField }): ReactElement {
  const acts = useActs();
  const what = inWords(field.name).replace(/s$/, '');
  const add = async (typed: string): Promise<string | undefined> => {
    if (typed === '') return undefined;
    const label = `${typed} in ${labelOf(field)}`;
    if (field.type === 'list') return acts.edit([{ do: 'insert', into: field.path, value: typed }], label);
    const empty: Entered = field.item?.type === 'list' ? [] : {};
    if (field.item === undefined || field.item.type === 'group' || field.item.type === 'list' || field.item.type === 'map') return acts.edit([{ do: 'insert', into: field.path, key: typed, value: empty, force: true }], label);
    const [key, value = ''] = typed.split(/:\s*/, 2);
    return acts.edit([{ do: 'insert', into: field.path, key: key ?? typed, value: value === '' ? field.item.example ?? '' : value }], label);
  };
  const label = field.type === 'list' ? `add to ${inWords(field.name)}` : `name of a new ${what}`;
  const options = field.type === 'list' ? field.item?.options ?? [] : field.options;
  return <Fresh key={field.fields.length}>{options.length > 0 ? <Pick label={label} written="" options={options} onCommit={add} /> : <TextField label={label} written="" placeholder={field.type === 'list' ? field.item?.example : undefined} onCommit={add} />}</Fresh>;
}

/** Emptied by its key once something was added. */
function Fresh({ children }: { readonly children: ReactElement }): ReactElement {
  return <div className="add-item">{children}</div>;
}
