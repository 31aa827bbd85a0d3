import { getAtPath, type Path, setAtPath } from '../../shared/model/edit';
import type { TypedKind } from '../../shared/units/quantity-units';
import {
  type EntryReader,
  getLengthReader,
  getQuantityReader,
  type LengthEntryOptions,
  type QuantityEntryOptions,
} from '../state/entry';
import { useApp, usePlanFact, useShop } from '../state/hooks';
import { getStepWords } from '../state/step-words';
import { NumberField } from '../ui/number-field';
import { type Option, SelectField } from '../ui/select-field';
import { TextField } from '../ui/text-field';
import { Checkbox } from '../ui/toggle';

interface PlanFieldProps {
  readonly label: string;
  readonly path: Path;
  /** Whose it is, for the name of the step: "change length of Pawl arm". */
  readonly of?: string;
  readonly hideLabel?: boolean;
}

type FieldValue = string | number | boolean | null;

/** The value of a field; hundreds of them stand in a long list, and none is drawn again for what another one says. */
function useFieldValue(path: Path): FieldValue {
  return usePlanFact((plan) => {
    const value = getAtPath(plan, path);
    return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null;
  });
}

/** Replaces one value of the plan as a named step. */
export function useSetField(
  props: Pick<PlanFieldProps, 'label' | 'path' | 'of'>,
): (value: unknown, shown?: string) => void {
  const { documents } = useApp();
  return (value, shown) => {
    const of = props.of === undefined || props.of === '' ? '' : ` of ${props.of}`;
    const to = shown === undefined ? '' : ` to ${shown}`;
    documents.edit(`change ${getStepWords(props.label)}${of}${to}`, (plan) => setAtPath(plan, props.path, value));
  };
}

export function PlanLength(
  props: PlanFieldProps & {
    readonly options?: LengthEntryOptions;
    readonly echoAlways?: boolean;
    readonly placeholder?: string;
  },
) {
  const units = usePlanFact((plan) => plan.units);
  return <PlanNumber {...props} reader={getLengthReader(units, { field: props.label, ...props.options })} />;
}

export function PlanQuantity(
  props: PlanFieldProps & {
    readonly kind: TypedKind;
    readonly options?: QuantityEntryOptions;
    readonly placeholder?: string;
  },
) {
  const units = usePlanFact((plan) => plan.units);
  const { currency } = useShop();
  return (
    <PlanNumber
      {...props}
      reader={getQuantityReader(props.kind, units, { field: props.label, currency, ...props.options })}
    />
  );
}

function PlanNumber(
  props: PlanFieldProps & {
    readonly reader: EntryReader;
    readonly echoAlways?: boolean;
    readonly placeholder?: string;
  },
) {
  const value = useFieldValue(props.path);
  const set = useSetField(props);
  const { reader } = props;
  return (
    <NumberField
      label={props.label}
      reader={reader}
      value={typeof value === 'number' ? value : null}
      hideLabel={props.hideLabel ?? false}
      echoAlways={props.echoAlways ?? false}
      placeholder={props.placeholder ?? ''}
      onCommit={(next) => set(next, `${reader.show(next)}${reader.unit === '' ? '' : ` ${reader.unit}`}`)}
      onClear={() => set(null, 'nothing')}
    />
  );
}

export function PlanText(props: PlanFieldProps & { readonly lines?: number; readonly placeholder?: string }) {
  const value = useFieldValue(props.path);
  const set = useSetField(props);
  return (
    <TextField
      label={props.label}
      value={typeof value === 'string' ? value : ''}
      hideLabel={props.hideLabel ?? false}
      placeholder={props.placeholder ?? ''}
      onCommit={(next) => set(next)}
      {...(props.lines === undefined ? {} : { lines: props.lines })}
    />
  );
}

export function PlanSelect<T extends string>(
  props: PlanFieldProps & { readonly options: readonly Option<T>[]; readonly placeholder?: string },
) {
  const value = useFieldValue(props.path);
  const set = useSetField(props);
  const known = props.options.some((option) => option.id === value);
  return (
    <SelectField
      label={props.label}
      options={props.options}
      value={known ? (value as T) : null}
      hideLabel={props.hideLabel ?? false}
      placeholder={props.placeholder ?? (typeof value === 'string' && value !== '' ? `missing: ${value}` : 'Choose')}
      onChange={(next) => set(next, props.options.find((option) => option.id === next)?.label ?? next)}
    />
  );
}

export function PlanCheckbox(props: PlanFieldProps) {
  const value = useFieldValue(props.path);
  const set = useSetField(props);
  return (
    <Checkbox
      label={props.label}
      value={value === true}
      hideLabel={props.hideLabel ?? false}
      onChange={(next) => set(next)}
    />
  );
}
