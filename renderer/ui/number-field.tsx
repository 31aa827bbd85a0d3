import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { FieldError, Input, Label, Text, TextField } from 'react-aria-components';
import type { Entry, EntryReader } from '../state/entry';

export interface NumberFieldProps {
  readonly label: string;
  readonly reader: EntryReader;
  /** Null shows an empty field. */
  readonly value: number | null;
  /** Called with a value that was understood and says something new: another than the one shown, or the same one typed over auto. */
  readonly onCommit: (value: number) => void;
  /** The value was worked out and not given, so that typing it is a decision, were it the very same. */
  readonly isAuto?: boolean;
  /** Called when the field was emptied, where that means something. */
  readonly onClear?: () => void;
  /** Shown in an empty field. */
  readonly placeholder?: string;
  /** The label is for screen readers only: the field stands in a table. */
  readonly hideLabel?: boolean;
  /** The echo in both units is always shown, not only while the field has the focus. */
  readonly echoAlways?: boolean;
  readonly isDisabled?: boolean;
  readonly onToggleKey?: () => void;
  readonly describedBy?: string;
}

/**
 * A number as a machinist types it. Enter or leaving the field commits; Escape puts the last good value back. What
 * cannot be read stays in the field with a sentence, and the plan keeps what it had.
 */
export function NumberField(props: NumberFieldProps) {
  const { reader, value } = props;
  const shown = value === null ? '' : reader.show(value);
  const [draft, setDraft] = useState<string | null>(null);
  const [message, setMessage] = useState<Entry | null>(null);
  const [focused, setFocused] = useState(false);
  const lastShown = useRef(shown);

  useEffect(() => {
    if (lastShown.current === shown) return;
    lastShown.current = shown;
    setDraft(null);
  }, [shown]);

  const restore = (): void => {
    setDraft(null);
    setMessage(null);
  };

  const commit = (): void => {
    if (draft === null) return;
    const isTypedOver = props.isAuto === true && draft.trim() !== '';
    if (draft.trim() === shown && !isTypedOver) {
      restore();
      return;
    }
    const entry = reader.read(draft);
    setMessage(entry.kind === 'refused' || (entry.kind === 'value' && entry.warning !== '') ? entry : null);
    if (entry.kind === 'refused') return;
    setDraft(null);
    if (entry.kind === 'cleared') props.onClear?.();
    else if (entry.value !== value || isTypedOver) props.onCommit(entry.value);
  };

  const handleKey = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') commit();
    else if (event.key === 'Escape' && (draft !== null || message !== null)) {
      event.stopPropagation();
      restore();
    } else if (event.altKey && event.key.toLowerCase() === 'p' && props.onToggleKey !== undefined) {
      event.preventDefault();
      props.onToggleKey();
    } else if (draft !== null && draft !== shown && isUndoKey(event)) {
      // Typing is undone by the field itself; the plan's history is for what was committed.
      event.stopPropagation();
    }
  };

  const refused = message?.kind === 'refused';
  const warning = message?.kind === 'value' ? message.warning : '';
  const echo = getEcho(props, draft);

  return (
    <TextField
      className={`field${props.hideLabel ? ' is-bare' : ''}${refused ? ' is-refused' : ''}${warning === '' ? '' : ' has-warning'}`}
      value={draft ?? shown}
      isInvalid={refused}
      isDisabled={props.isDisabled ?? false}
      onChange={(text) => {
        setDraft(text);
        setMessage(null);
      }}
      onFocus={() => setFocused(true)}
      onBlur={() => {
        setFocused(false);
        commit();
      }}
      validationBehavior="aria"
    >
      <Label className={props.hideLabel ? 'visually-hidden' : 'field-label'}>{props.label}</Label>
      <span className="field-box">
        <Input
          className={`input is-number${reader.unit.length > 2 ? ' has-wide-unit' : ''}`}
          placeholder={props.placeholder ?? ''}
          autoComplete="off"
          spellCheck={false}
          onKeyDown={handleKey}
          onFocus={(event) => event.currentTarget.select()}
        />
        {reader.unit !== '' && (
          <span className="field-unit" aria-hidden="true">
            {reader.unit}
          </span>
        )}
      </span>
      {(props.echoAlways || focused) && echo !== '' && !refused && (
        <Text slot="description" className="field-echo">
          {echo}
        </Text>
      )}
      {warning !== '' && (
        <span className="field-warning" role="status">
          {warning}
        </span>
      )}
      <FieldError className="field-error">
        {message?.kind === 'refused'
          ? `${message.sentence}${value === null ? '' : ` Kept ${reader.echo(value)}.`}`
          : ''}
      </FieldError>
    </TextField>
  );
}

function getEcho(props: NumberFieldProps, draft: string | null): string {
  if (draft === null) return props.value === null ? '' : props.reader.echo(props.value);
  const entry = props.reader.read(draft);
  return entry.kind === 'value' ? `= ${props.reader.echo(entry.value)}` : '';
}

function isUndoKey(event: KeyboardEvent): boolean {
  return (event.ctrlKey || event.metaKey) && ['z', 'y'].includes(event.key.toLowerCase());
}
