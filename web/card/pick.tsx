/** A name out of many: typed, with those that fit offered below. */
import { useRef } from 'react';
import type { ReactElement } from 'react';
import { Button, ComboBox, Input, Label, ListBox, ListBoxItem, Popover, Text } from 'react-aria-components';
import { useDraft, withoutPath } from './text-field.tsx';

export interface PickOption { readonly value: string; readonly says: string }

export interface PickProps {
  readonly label: string;
  readonly written: string;
  readonly options: readonly PickOption[];
  readonly placeholder?: string | undefined;
  readonly problems?: readonly string[];
  readonly path?: string | undefined;
  readonly isLabelHidden?: boolean;
  readonly onCommit: (value: string) => Promise<string | undefined>;
}

interface Item extends PickOption { readonly id: string; readonly sought: string }

/** The list is searched anew whenever it is another one: after most edits it holds the same as before. */
function useItems(options: readonly PickOption[]): readonly Item[] {
  const kept = useRef<readonly Item[]>([]);
  const isSame = kept.current.length === options.length && options.every(({ value, says }, at) => { const item = kept.current[at]!; return item.value === value && item.says === says; });
  if (!isSame) kept.current = options.map(({ value, says }) => ({ id: value, sought: `${value} ${says}`, value, says }));
  return kept.current;
}

export function Pick({ label, written, options, placeholder, problems = [], path, isLabelHidden = false, onCommit }: PickProps): ReactElement {
  const { draft, refusal, type, commit, restore } = useDraft(written, onCommit);
  const says = withoutPath(refusal ?? (draft === undefined ? problems.join(' ') : ''), path);
  const items = useItems(options);
  // what was chosen also arrives as letters, with all the words that it can be found by: `onSelectionChange` has taken it
  const isChosen = (text: string): boolean => items.some(({ sought }) => sought === text);
  return (
    <ComboBox className="typed pick" allowsCustomValue allowsEmptyCollection menuTrigger="input" inputValue={draft ?? written} defaultItems={items} isInvalid={says !== ''}
      onInputChange={(text) => { if (text !== (draft ?? written) && !isChosen(text)) type(text); }}
      onSelectionChange={(key) => { if (key !== null) { type(String(key)); void commit(String(key)); } }} onBlur={() => void commit()}>
      <Label className={isLabelHidden ? 'unseen' : ''}>{label}</Label>
      <div className="pick-line">
        <Input {...(placeholder === undefined ? {} : { placeholder })} {...(path === undefined ? {} : { 'data-path': path })} autoComplete="off" spellCheck="false"
          onKeyDown={(event) => {
            // with one of the list under the cursor, Enter takes that one
            if (event.key === 'Enter' && !event.currentTarget.getAttribute('aria-activedescendant')) void commit();
            if (event.key === 'Escape' && draft !== undefined) { event.preventDefault(); restore(); }
          }} />
        <Button className="quiet pick-open" aria-label={`Choose ${label}`}>▾</Button>
      </div>
      {says !== '' && <Text slot="errorMessage" className="refusal">{says}</Text>}
      <Popover className="pick-list">
        <ListBox<Item> renderEmptyState={() => <span className="muted">none that fits</span>}>
          {(item) => <ListBoxItem id={item.id} textValue={item.sought} className="pick-item"><span className="mono">{item.value}</span>{item.says !== '' && <span className="muted"> {item.says}</span>}</ListBoxItem>}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}
