import { type KeyboardEvent, useEffect, useState } from 'react';
import { TextField as AriaTextField, Input, Label, TextArea } from 'react-aria-components';

export interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onCommit: (value: string) => void;
  readonly hideLabel?: boolean;
  readonly lines?: number;
  readonly placeholder?: string;
}

/** Longer text is committed when the typing rests for so long, so that a crash does not cost a paragraph. */
const REST_MS = 1500;

/** Words. Enter or leaving the field commits, so that a sentence is one step of the history; Escape restores. */
export function TextField(props: TextFieldProps) {
  const [draft, setDraft] = useState(props.value);
  useEffect(() => setDraft(props.value), [props.value]);
  const commit = (): void => {
    if (draft !== props.value) props.onCommit(draft);
  };
  useEffect(() => {
    if (props.lines === undefined || draft === props.value) return;
    const timer = window.setTimeout(commit, REST_MS);
    return () => window.clearTimeout(timer);
  });
  const handleKey = (event: KeyboardEvent): void => {
    const isMultiline = props.lines !== undefined;
    if (event.key === 'Enter' && (!isMultiline || event.ctrlKey || event.metaKey)) commit();
    else if (event.key === 'Escape' && draft !== props.value) {
      event.stopPropagation();
      setDraft(props.value);
    } else if (draft !== props.value && (event.ctrlKey || event.metaKey) && 'zy'.includes(event.key.toLowerCase())) {
      event.stopPropagation();
    }
  };
  const shared = { placeholder: props.placeholder ?? '', onKeyDown: handleKey, className: 'input' };
  return (
    <AriaTextField
      className={`field${props.hideLabel ? ' is-bare' : ''}`}
      value={draft}
      onChange={setDraft}
      onBlur={commit}
    >
      <Label className={props.hideLabel ? 'visually-hidden' : 'field-label'}>{props.label}</Label>
      {props.lines === undefined ? <Input {...shared} /> : <TextArea {...shared} rows={props.lines} />}
    </AriaTextField>
  );
}
