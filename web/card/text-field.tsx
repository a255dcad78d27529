/**
 * A value of the file as text. Enter or leaving the field writes it; Escape brings back what is written. Text that cannot be used
 * stays as typed, with what was expected, and the file is not touched.
 */
import { useContext, useEffect, useId, useRef, useState } from 'react';
import type { KeyboardEvent, ReactElement } from 'react';
import { Answered } from './answered.ts';

export interface TextFieldProps {
  readonly label: string;
  readonly written: string;
  readonly placeholder?: string | undefined;
  readonly describedBy?: string | undefined;
  /** what the file itself says against the written text */
  readonly problems?: readonly string[];
  readonly path?: string | undefined;
  readonly isLabelHidden?: boolean;
  readonly isNumber?: boolean;
  /** told of what stands in the field as it is typed */
  readonly onTyping?: ((text: string) => void) | undefined;
  /** @returns undefined when it was written, else why not */
  readonly onCommit: (text: string) => Promise<string | undefined>;
}

export function TextField({ label, written, placeholder, describedBy, problems = [], path, isLabelHidden = false, isNumber = false, onTyping, onCommit }: TextFieldProps): ReactElement {
  const id = useId();
  const { draft, refusal, type, commit, restore } = useDraft(written, onCommit);
  const says = withoutPath(refusal ?? (draft === undefined ? problems.join(' ') : ''), path);
  const keys = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') { event.preventDefault(); void commit(); }
    if (event.key === 'Escape' && draft !== undefined) { event.preventDefault(); restore(); }
  };
  return (
    <div className={isNumber ? 'typed number' : 'typed'}>
      <label htmlFor={id} className={isLabelHidden ? 'unseen' : undefined}>{label}</label>
      <input id={id} type="text" value={draft ?? written} placeholder={placeholder} autoComplete="off" spellCheck={false} data-path={path}
        aria-invalid={says !== ''} aria-describedby={[says === '' ? '' : `${id}-says`, describedBy ?? ''].join(' ').trim() || undefined}
        onChange={(event) => { type(event.target.value); onTyping?.(event.target.value.trim()); }} onKeyDown={keys} onBlur={() => void commit()} />
      {says !== '' && <p className="refusal" id={`${id}-says`} role={refusal === undefined ? undefined : 'alert'}>{says}</p>}
    </div>
  );
}

/** Beside the field itself its path need not be said. */
export function withoutPath(says: string, path: string | undefined): string {
  const rest = path !== undefined && says.startsWith(path) ? says.slice(path.length).replace(/^:\s*/, '').trim() : says;
  return rest === '' ? '' : `${rest[0]?.toUpperCase()}${rest.slice(1)}`;
}

export interface Draft {
  /** what was typed and is not in the file yet */
  readonly draft: string | undefined;
  readonly refusal: string | undefined;
  readonly type: (text: string) => void;
  readonly commit: (text?: string) => Promise<void>;
  readonly restore: () => void;
}

/** How far a draft has come; `text` is what was sent, once it was. */
type Stage = { readonly is: 'silent' | 'typing'; readonly text?: undefined } | { readonly is: 'sent' | 'accepted' | 'refused'; readonly text: string };

export function useDraft(written: string, onCommit: (text: string) => Promise<string | undefined>): Draft {
  const [draft, setDraft] = useState<string>();
  const [refusal, setRefusal] = useState<string>();
  const bell = useContext(Answered);
  const stage = useRef<Stage>({ is: 'silent' });
  const restore = (): void => { setDraft(undefined); setRefusal(undefined); stage.current = { is: 'silent' }; };
  // The file has changed under it: what it says now counts. But that may be the answer to the edit before, and letters that were
  // typed since, or are on their way, are newer than any answer.
  useEffect(() => { if (stage.current.is !== 'typing' && stage.current.is !== 'sent') restore(); }, [written]);
  useEffect(() => bell?.onRing(() => { if (stage.current.is === 'accepted') restore(); }), [bell]);
  const commit = async (text = draft): Promise<void> => {
    if (text === undefined || text === stage.current.text) return;
    if (text.trim() === written) { restore(); return; }
    const sent: Stage = { is: 'sent', text };
    stage.current = sent;
    const problem = await onCommit(text.trim());
    if (stage.current !== sent) return;
    setRefusal(problem);
    stage.current = { is: problem === undefined ? 'accepted' : 'refused', text };
  };
  return { draft, refusal, commit, restore, type: (text) => { setDraft(text); setRefusal(undefined); stage.current = { is: 'typing' }; } };
}
