import type { SyntheticEvent } from 'react';
import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from 'react-aria-components';
import { Icon } from './icon';

export interface Option<T extends string> {
  readonly id: T;
  readonly label: string;
  /** A second line in the list. */
  readonly about?: string;
}

export interface SelectFieldProps<T extends string> {
  readonly label: string;
  readonly options: readonly Option<T>[];
  readonly value: T | null;
  readonly onChange: (value: T) => void;
  /** The value was worked out and not given, so that choosing it is a decision, were it the very same. */
  readonly isAuto?: boolean;
  readonly hideLabel?: boolean;
  readonly placeholder?: string;
  readonly onToggleKey?: () => void;
}

export function SelectField<T extends string>(props: SelectFieldProps<T>) {
  const { value, isAuto = false } = props;
  // The list says nothing when what stands is chosen again.
  const chooseAgain = ({ target }: SyntheticEvent): void => {
    const option = target instanceof Element ? target.closest<HTMLElement>('[role="option"]') : null;
    if (isAuto && value !== null && option?.dataset.key === value) props.onChange(value);
  };
  return (
    <Select
      className={`field${props.hideLabel ? ' is-bare' : ''}`}
      value={props.value}
      onChange={(key) => {
        if (key !== null && key !== props.value) props.onChange(String(key) as T);
      }}
      placeholder={props.placeholder ?? 'Choose'}
    >
      <Label className={props.hideLabel ? 'visually-hidden' : 'field-label'}>{props.label}</Label>
      <Button
        className="select-button"
        onKeyDown={(event) => {
          if (event.altKey && event.key.toLowerCase() === 'p') props.onToggleKey?.();
          else event.continuePropagation();
        }}
      >
        <SelectValue className="select-value">
          {({ selectedText, isPlaceholder, defaultChildren }) => (isPlaceholder ? defaultChildren : selectedText)}
        </SelectValue>
        <Icon name="down" />
      </Button>
      <Popover className="popover select-popover">
        <div
          className="select-list"
          role="presentation"
          onPointerUpCapture={chooseAgain}
          onKeyDownCapture={(event) => {
            if (event.key === 'Enter' || event.key === ' ') chooseAgain(event);
          }}
        >
          <ListBox className="list-box" items={props.options}>
            {(option) => (
              <ListBoxItem id={option.id} textValue={option.label} className="list-item">
                <span className="list-label">{option.label}</span>
                {option.about !== undefined && option.about !== '' && (
                  <span className="list-about">{option.about}</span>
                )}
              </ListBoxItem>
            )}
          </ListBox>
        </div>
      </Popover>
    </Select>
  );
}
