/** One field of a card, of whatever type: what is written, what counts when nothing is, and what can be done with it. */
import { memo, useId, useState } from 'react';
import type { ReactElement } from 'react';
import type { CardField } from '../analysis/protocol.ts';
import { useActs } from '../bench.ts';
import { askWhatIf } from '../what-if/alternatives.ts';
import { FieldGroup, FieldTriple } from './field-groups.tsx';
import { inWords } from './names.ts';
import { Pick } from './pick.tsx';
import { SureEditor } from './sure-editor.tsx';
import { TextField, withoutPath } from './text-field.tsx';
import { useTyping, useWriting } from './writing.ts';

/** Drawn anew when its own field is another: after most edits that is one of the card. */
export const Field = memo(function Field({ field, canRemove = false }: { readonly field: CardField; /** an item of a list or map may always go */ readonly canRemove?: boolean }): ReactElement {
  switch (field.type) {
    case 'position': case 'size': return <FieldTriple field={field} />;
    case 'list': case 'map': case 'group': return <FieldGroup field={field} canRemove={canRemove} Inner={Field} />;
    default: return <FieldLine field={field} canRemove={canRemove} />;
  }
});

function FieldLine({ field, canRemove }: { readonly field: CardField; readonly canRemove: boolean }): ReactElement {
  const id = useId();
  const [isOpen, setOpen] = useState(false);
  const write = useWriting(field, canRemove);
  const name = inWords(field.name);
  const silent = field.written !== '' ? '' : field.instead !== undefined ? `else ${field.instead}` : field.need === 'required' ? 'required' : 'not given';
  return (
    <div className="field" data-need={field.need} data-written={field.written === '' ? undefined : ''}>
      <div className="field-line">
        <Control field={field} name={name} describedBy={`${id}-about`} write={write} />
        <button type="button" className="quiet field-more" aria-expanded={isOpen} aria-controls={`${id}-more`} aria-label={`More about ${name}`} onClick={() => setOpen(!isOpen)}>{isOpen ? '–' : '…'}</button>
      </div>
      <p className="field-about" id={`${id}-about`}>{field.meaning}{silent === '' ? '' : <span className="silent">; {silent}</span>}</p>
      <div id={`${id}-more`} hidden={!isOpen} className="field-extra">{isOpen && <Extra field={field} name={name} write={write} canRemove={canRemove} />}</div>
    </div>
  );
}

function Control({ field, name, describedBy, write }: { readonly field: CardField; readonly name: string; readonly describedBy: string; readonly write: (text: string) => Promise<string | undefined> }): ReactElement {
  const [refusal, setRefusal] = useState<string>();
  const id = useId();
  const typing = useTyping();
  const isNumber = field.type === 'quantity' || field.type === 'count';
  if (field.type === 'choice' || field.type === 'flag') {
    const known = field.written === '' || field.options.some(({ value }) => value === field.written);
    const says = withoutPath(refusal ?? field.problems.join(' '), field.path);
    return (
      <div className="typed">
        <label htmlFor={id}>{name}</label>
        <select id={id} value={field.written} data-path={field.path} aria-describedby={describedBy} aria-invalid={says !== ''} onChange={(event) => void write(event.target.value).then(setRefusal)}>
          <option value="" disabled={field.need === 'required'}>{field.written === '' || field.need !== 'required' ? `not given${field.instead === undefined ? '' : `: ${field.instead}`}` : 'choose'}</option>
          {!known && <option value={field.written}>{field.written}</option>}
          {field.options.map(({ value, says: meaning }) => <option key={value} value={value}>{value}{meaning === '' ? '' : `: ${meaning}`}</option>)}
        </select>
        {says !== '' && <p className="refusal">{says}</p>}
      </div>
    );
  }
  if (field.type === 'name' || field.options.length > 0) return <Pick label={name} written={field.written} options={field.options} placeholder={field.example} problems={field.problems} path={field.path} onCommit={write} />;
  return <TextField label={name} written={field.written} placeholder={field.example} describedBy={describedBy} problems={field.problems} path={field.path} isNumber={isNumber} onTyping={isNumber ? (text) => typing(field.path, text) : undefined} onCommit={write} />;
}

/** What is less often wanted: how sure it is, what if, where it stands. */
function Extra({ field, name, write, canRemove }: { readonly field: CardField; readonly name: string; readonly write: (text: string) => Promise<string | undefined>; readonly canRemove: boolean }): ReactElement {
  const acts = useActs();
  const isWritten = field.written !== '';
  return (
    <>
      {field.example !== undefined && <p className="field-example">for example <span className="mono">{field.example}</span></p>}
      {field.type === 'quantity' && isWritten && <SureEditor name={name} written={field.written} onCommit={write} />}
      <p className="field-ways">
        <button type="button" onClick={() => { askWhatIf(field.path, field.written); acts.announce(`What if: another ${name} can be tried under the sheet.`); }}>What if…</button>
        {isWritten && (field.need !== 'required' || canRemove) && <button type="button" onClick={() => void write('')}>Take it out</button>}
        {isWritten && <button type="button" onClick={() => acts.openText({ path: field.path })}>To the text</button>}
      </p>
    </>
  );
}
