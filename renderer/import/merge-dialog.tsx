import { useMemo, useState } from 'react';
import { compareShops, type MergeLine, mergeShops } from '../../shared/model/merge-shop';
import type { Shop } from '../../shared/model/shop';
import { useApp, useShop } from '../state/hooks';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { Checkbox } from '../ui/toggle';

const LIST_WORDS: Record<MergeLine['list'], string> = {
  materials: 'Material',
  sizeClasses: 'Size class',
  bars: 'Bar on offer',
  rack: 'Rack',
  vises: 'Vise',
  jawSets: 'Jaws',
  parallels: 'Parallels',
  tools: 'Tool',
  holders: 'Holder',
  saws: 'Saw',
};

/** Another shop, entry by entry: new ones are taken unless unticked, changed ones only when ticked. */
export function MergeDialog(props: { name: string; shop: Shop; remarks: readonly string[]; onClose: () => void }) {
  const { documents } = useApp();
  const own = useShop();
  const lines = useMemo(() => compareShops(own, props.shop), [own, props.shop]);
  const different = lines.filter(({ kind }) => kind !== 'same');
  const [chosen, setChosen] = useState(() => new Set(different.filter(({ kind }) => kind === 'new').map(getKey)));
  const toggle = (line: MergeLine, isChosen: boolean): void => {
    const next = new Set(chosen);
    if (isChosen) next.add(getKey(line));
    else next.delete(getKey(line));
    setChosen(next);
  };
  const taken = different.filter((line) => chosen.has(getKey(line)));
  const apply = (): void => {
    documents.editShop(`take entries from ${props.name}`, (before) => mergeShops(before, props.shop, taken));
    props.onClose();
  };
  return (
    <Dialog
      title={`Shop library in ${props.name}`}
      onClose={props.onClose}
      size="large"
      footer={
        <>
          <Button onPress={props.onClose}>Cancel</Button>
          <Button look="primary" isDisabled={taken.length === 0} onPress={apply}>
            {taken.length === 1 ? 'Take 1 entry' : `Take ${taken.length} entries`}
          </Button>
        </>
      }
    >
      {props.remarks.map((remark) => (
        <p key={remark}>{remark}</p>
      ))}
      <p>
        {lines.length - different.length} of its {lines.length} entries are as yours. Nothing of yours is taken away;
        house rules and machine stay your own.
      </p>
      <div className="scroll-box list-preview">
        <table className="data-table">
          <thead>
            <tr>
              <th scope="col">Take</th>
              <th scope="col">Kind</th>
              <th scope="col">Name</th>
              <th scope="col">Against yours</th>
            </tr>
          </thead>
          <tbody>
            {different.map((line) => (
              <tr key={getKey(line)}>
                <td>
                  <Checkbox
                    label={`Take ${line.name}`}
                    hideLabel
                    value={chosen.has(getKey(line))}
                    onChange={(isChosen) => toggle(line, isChosen)}
                  />
                </td>
                <td>{LIST_WORDS[line.list]}</td>
                <td>{line.name}</td>
                <td>
                  {line.kind === 'new'
                    ? 'new'
                    : `takes the place of yours: ${line.fields.map(getFieldName).join(', ')}`}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Dialog>
  );
}

/** The name of a field as words: `jawWidth` is "jaw width". */
function getFieldName(field: string): string {
  return field.replace(/[A-Z]/gu, (letter) => ` ${letter.toLowerCase()}`);
}

function getKey({ list, id }: MergeLine): string {
  return `${list} ${id}`;
}
