import { getAtPath, type Path, setAtPath } from '../../shared/model/edit';
import { nextId } from '../../shared/model/next-id';
import { ListEditor } from '../panels/list-editor';
import { type EntryReader, getLengthReader, getQuantityReader } from '../state/entry';
import { useApp, usePlan, useShop } from '../state/hooks';
import { getStepWords } from '../state/step-words';
import { NumberField } from '../ui/number-field';
import { SelectField } from '../ui/select-field';
import { TextField } from '../ui/text-field';
import { Checkbox } from '../ui/toggle';
import type { FieldSpec } from './field-spec';

export interface ShopFieldProps {
  readonly spec: FieldSpec;
  /** Where the entry, row or group stands in the shop. */
  readonly base: Path;
  /** Whose it is, for the name of the step. */
  readonly of: string;
  /** In a table the label is for screen readers. */
  readonly inTable?: string;
}

/** One field of a shop entry, whatever its kind. */
export function ShopField({ spec, base, of, inTable }: ShopFieldProps) {
  const { documents } = useApp();
  const shop = useShop();
  const path = [...base, ...spec.path];
  const value = getAtPath(shop, path);
  const set = (next: unknown, shown?: string): void =>
    documents.editShop(
      `shop: change ${getStepWords(spec.label)} of ${of}${shown === undefined ? '' : ` to ${shown}`}`,
      (before) => setAtPath(before, path, next),
    );
  const label = inTable === undefined ? spec.label : `${spec.label}, ${inTable}`;
  const common = { label, hideLabel: inTable !== undefined };
  switch (spec.kind) {
    case 'text':
      return (
        <TextField
          {...common}
          value={String(value ?? '')}
          onCommit={(next) => set(next)}
          {...(spec.lines === undefined ? {} : { lines: spec.lines })}
        />
      );
    case 'length':
    case 'quantity':
      return <ShopNumber {...common} spec={spec} value={typeof value === 'number' ? value : null} set={set} />;
    case 'choice':
      return (
        <SelectField
          {...common}
          options={spec.options}
          value={String(value)}
          onChange={(next) => set(next, spec.options.find(({ id }) => id === next)?.label ?? next)}
        />
      );
    case 'entry':
      return <EntryField {...common} list={spec.list} value={String(value)} set={set} />;
    case 'check':
      return <Checkbox {...common} value={value === true} onChange={(next) => set(next)} />;
    case 'optional':
      return (
        <>
          <Checkbox label={label} value={value !== null} onChange={(on) => set(on ? spec.first : null)} />
          {value !== null &&
            spec.fields.map((field) => <ShopField key={field.label} spec={field} base={path} of={of} />)}
        </>
      );
    case 'rows':
      return <ShopRows spec={spec} path={path} of={of} />;
    default:
      return spec satisfies never;
  }
}

interface ControlProps {
  readonly label: string;
  readonly hideLabel: boolean;
  readonly set: (next: unknown, shown?: string) => void;
}

function ShopNumber({
  spec,
  value,
  set,
  ...common
}: ControlProps & { spec: Extract<FieldSpec, { kind: 'length' | 'quantity' }>; value: number | null }) {
  const { units } = usePlan();
  const { currency } = useShop();
  const reader: EntryReader =
    spec.kind === 'length'
      ? getLengthReader(units, { field: spec.label, ...spec.options })
      : getQuantityReader(spec.quantity, units, { field: spec.label, currency, ...spec.options });
  return (
    <NumberField
      {...common}
      reader={reader}
      value={value}
      placeholder="—"
      onCommit={(next) => set(next, `${reader.show(next)} ${reader.unit}`.trim())}
      onClear={() => set(null, 'nothing')}
    />
  );
}

function EntryField({
  list,
  value,
  set,
  ...common
}: ControlProps & { list: 'materials' | 'sizeClasses'; value: string }) {
  const shop = useShop();
  const options = shop[list].map(({ id, name }) => ({ id, label: name }));
  const isKnown = options.some(({ id }) => id === value);
  return (
    <SelectField
      {...common}
      options={options}
      value={isKnown ? value : null}
      placeholder={value === '' ? 'Choose' : 'missing'}
      onChange={(next) => set(next, options.find(({ id }) => id === next)?.label ?? next)}
    />
  );
}

function ShopRows({ spec, path, of }: { spec: Extract<FieldSpec, { kind: 'rows' }>; path: Path; of: string }) {
  const { documents } = useApp();
  const shop = useShop();
  const rows = (getAtPath(shop, path) ?? []) as readonly { readonly id?: string }[];
  const change = (step: string, next: readonly unknown[]): void =>
    documents.editShop(`shop: ${step} of ${of}`, (before) => setAtPath(before, path, next));
  const add = (): void => {
    const last = rows.at(-1) ?? (spec.first as { id?: string });
    const named = rows as readonly { readonly id: string }[];
    const row = 'id' in last ? { ...last, id: nextId(named, 'length') } : { ...last };
    change(`add to the ${getStepWords(spec.label)}`, [...rows, row]);
  };
  return (
    <ListEditor
      title={spec.label}
      about=""
      columns={spec.columns.map((column) => column.label)}
      rows={rows.map((row, index) => ({ key: row.id ?? String(index), name: `row ${index + 1}` }))}
      addLabel="Add a row"
      onAdd={add}
      onRemove={(index) => change(`remove a row from the ${getStepWords(spec.label)}`, rows.toSpliced(index, 1))}
      renderCells={(index) =>
        spec.columns.map((column) => (
          <ShopField key={column.label} spec={column} base={[...path, index]} of={of} inTable={`row ${index + 1}`} />
        ))
      }
    />
  );
}
