import { useMemo, useState } from 'react';
import { detectDecimal } from '../../shared/lists/detect-decimal';
import { detectColumns, type ListColumn } from '../../shared/lists/list-columns';
import { applyPartList, PART_COLUMNS } from '../../shared/lists/part-list';
import { applyRackList, RACK_COLUMNS } from '../../shared/lists/rack-list';
import { buildRejectedRows, type ListSettings, readList } from '../../shared/lists/read-list';
import { DELIMITER_WORDS, DELIMITERS, type TableText } from '../../shared/lists/table';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import type { ListKind } from '../state/dialogs';
import { useApp, usePlan, useShop } from '../state/hooks';
import { getStyle } from '../state/imports';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { SelectField } from '../ui/select-field';
import { Checkbox } from '../ui/toggle';
import type { ListChange } from './list-change';
import { ListPreview } from './list-preview';

export interface ListDialogProps {
  readonly list: ListKind;
  readonly name: string;
  /** By which the file is read again with another delimiter. */
  readonly token: string;
  readonly table: TableText;
  readonly onClose: () => void;
}

const COLUMNS: Record<ListKind, readonly ListColumn<string>[]> = { parts: PART_COLUMNS, rack: RACK_COLUMNS };

/** A list that was read: what stands between cells and before decimals, its unit and its columns, and what it would change. */
export function ListDialog(props: ListDialogProps) {
  const app = useApp();
  const plan = usePlan();
  const shop = useShop();
  const [table, setTable] = useState(props.table);
  const [settings, setSettings] = useState(() => detectSettings(props.list, props.table, plan.units));
  const detected = useMemo(
    () => ({ decimal: detectDecimal(table), columns: detectColumns(table, COLUMNS[props.list]) }),
    [table, props.list],
  );
  const list = useMemo(() => readList(table, COLUMNS[props.list], settings), [table, settings, props.list]);
  const change = useMemo(() => getChange(props.list, list, table, plan, shop), [props.list, list, table, plan, shop]);
  const set = (next: Partial<ListSettings<string>>): void => setSettings({ ...settings, ...next });
  const taken = change.lines.filter(({ kind }) => kind !== 'same').length;

  const readAgain = async (delimiter: string): Promise<void> => {
    const reply = await app.host.call('readTable', { token: props.token, delimiter });
    if (!reply.ok) return app.view.notify('problem', reply.problem.sentence);
    if (reply.value === null) return;
    setTable(reply.value.table);
    setSettings(detectSettings(props.list, reply.value.table, settings.units));
  };
  const apply = (): void => {
    if (props.list === 'parts') app.documents.edit(`read parts from ${props.name}`, change.apply.plan);
    else app.documents.editShop(`read the rack from ${props.name}`, change.apply.shop);
    props.onClose();
  };
  const keepAside = (): void => {
    const style = { ...getStyle(app), decimal: settings.decimal };
    void app.files.exportTable('rows not taken', buildRejectedRows(table, change.rejected, settings.hasHead), style);
  };

  return (
    <Dialog
      title={props.list === 'parts' ? `Parts in ${props.name}` : `Rack in ${props.name}`}
      onClose={props.onClose}
      size="large"
      footer={
        <>
          {change.rejected.length > 0 && <Button onPress={keepAside}>Save the rows not taken…</Button>}
          <Button onPress={props.onClose}>Cancel</Button>
          <Button look="primary" isDisabled={taken === 0} onPress={apply}>
            {taken === 1 ? 'Take 1 row' : `Take ${taken} rows`}
          </Button>
        </>
      }
    >
      <div className="list-settings">
        <SelectField
          label="Between cells"
          value={table.delimiter}
          onChange={(delimiter) => void readAgain(delimiter)}
          options={[...new Set([...DELIMITERS, table.delimiter])].map((id) => ({
            id,
            label: DELIMITER_WORDS[id] ?? id,
          }))}
        />
        <SelectField
          label="Before decimals"
          value={settings.decimal}
          onChange={(decimal) => set({ decimal })}
          options={[
            { id: '.', label: 'point: 1.5' },
            { id: ',', label: 'comma: 1,5' },
          ]}
        />
        <SelectField
          label="Bare lengths in"
          value={settings.units}
          onChange={(units) => set({ units })}
          options={[
            { id: 'in', label: 'inches' },
            { id: 'mm', label: 'millimetres' },
          ]}
        />
        <Checkbox label="First row is the head" value={settings.hasHead} onChange={(hasHead) => set({ hasHead })} />
      </div>
      <ul className="plain-list list-doubts" aria-label="Doubts">
        {getDoubts(detected, list.missing, table).map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <ListPreview
        table={table}
        settings={settings}
        known={COLUMNS[props.list]}
        change={change}
        onColumns={(columns) => set({ columns })}
      />
    </Dialog>
  );
}

function detectSettings(list: ListKind, table: TableText, units: 'in' | 'mm'): ListSettings<string> {
  const { columns, hasHead, units: said } = detectColumns(table, COLUMNS[list]);
  return { columns, hasHead, decimal: detectDecimal(table).decimal, units: said ?? units };
}

function getChange(
  kind: ListKind,
  list: ReturnType<typeof readList<string>>,
  table: TableText,
  plan: Plan,
  shop: Shop,
): ListChange {
  const same = { plan: (before: Plan) => before, shop: (before: Shop) => before };
  if (kind === 'parts') {
    const { parts, lines, rejected } = applyPartList(plan.parts, list, table);
    return { lines, rejected, apply: { ...same, plan: (before) => ({ ...before, parts }) } };
  }
  const { rack, lines, rejected } = applyRackList(shop, list, table);
  return { lines, rejected, apply: { ...same, shop: (before) => ({ ...before, rack }) } };
}

function getDoubts(
  detected: { decimal: ReturnType<typeof detectDecimal>; columns: ReturnType<typeof detectColumns<string>> },
  missing: readonly string[],
  table: TableText,
): string[] {
  const doubts = [...table.remarks];
  if (missing.length > 0)
    doubts.push(`No column is known to hold: ${missing.join(', ')}. Say which does, above the rows.`);
  if (!detected.decimal.isCertain) {
    doubts.push(
      'The list does not tell whether a point or a comma stands before decimals: make sure that it is right.',
    );
  }
  if (detected.columns.units === null) doubts.push('The heads do not name a unit: make sure that it is right.');
  return doubts;
}
