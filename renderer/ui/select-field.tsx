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
  readonly hideLabel?: boolean;
  readonly placeholder?: string;
  readonly onToggleKey?: () => void;
}

export function SelectField<T extends string>(props: SelectFieldProps<T>) {
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
        <ListBox className="list-box" items={props.options}>
          {(option) => (
            <ListBoxItem id={option.id} textValue={option.label} className="list-item">
              <span className="list-label">{option.label}</span>
              {option.about !== undefined && option.about !== '' && <span className="list-about">{option.about}</span>}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </Select>
  );
}
