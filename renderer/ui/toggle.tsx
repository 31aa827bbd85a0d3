import { Checkbox as AriaCheckbox, ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import type { Option } from './select-field';

export interface CheckboxProps {
  readonly label: string;
  readonly value: boolean;
  readonly onChange: (value: boolean) => void;
  readonly hideLabel?: boolean;
}

export function Checkbox(props: CheckboxProps) {
  return (
    <AriaCheckbox className="checkbox" isSelected={props.value} onChange={props.onChange}>
      <span className="checkbox-box" aria-hidden="true">
        <svg viewBox="0 0 16 16" aria-hidden="true">
          <path d="m3 8.500 3.300 3.300L13 4.500" />
        </svg>
      </span>
      <span className={props.hideLabel ? 'visually-hidden' : ''}>{props.label}</span>
    </AriaCheckbox>
  );
}

/** Two or three choices side by side, one of them taken. */
export function Segments<T extends string>(props: {
  label: string;
  options: readonly Option<T>[];
  value: T;
  onChange: (value: T) => void;
}) {
  return (
    <ToggleButtonGroup
      className="segments"
      aria-label={props.label}
      selectionMode="single"
      disallowEmptySelection
      selectedKeys={[props.value]}
      onSelectionChange={(keys) => {
        const [key] = keys;
        if (key !== undefined && key !== props.value) props.onChange(String(key) as T);
      }}
    >
      {props.options.map((option) => (
        <ToggleButton key={option.id} id={option.id} className="segment">
          {option.label}
        </ToggleButton>
      ))}
    </ToggleButtonGroup>
  );
}
