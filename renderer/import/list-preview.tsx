import type { ListColumn } from '../../shared/lists/list-columns';
import type { ListSettings } from '../../shared/lists/read-list';
import type { TableText } from '../../shared/lists/table';
import { SelectField } from '../ui/select-field';
import type { ListChange } from './list-change';

const KIND_WORDS = { new: 'new', changed: 'changes', same: 'as it is' } as const;

const LEFT_OUT = '-';

const MOST_SHOWN = 200;

/** The rows as they stand, what each column is taken for, and what becomes of each row. */
export function ListPreview(props: {
  table: TableText;
  settings: ListSettings<string>;
  known: readonly ListColumn<string>[];
  change: ListChange;
  onColumns: (columns: (string | null)[]) => void;
}) {
  const { table, settings, known, change } = props;
  const rows = table.rows.slice(settings.hasHead ? 1 : 0);
  const outcomes = new Map<number, { text: string; isBad: boolean }>([
    ...change.lines.map(({ line, kind, warnings }) => {
      return [line, { text: [KIND_WORDS[kind], ...warnings].join('. '), isBad: false }] as const;
    }),
    ...change.rejected.map(({ line, sentences }) => [line, { text: sentences.join(' '), isBad: true }] as const),
  ]);
  const setColumn = (index: number, field: string): void => {
    const next = settings.columns.map((current, at) => {
      if (at === index) return field === LEFT_OUT ? null : field;
      return current === field ? null : current;
    });
    props.onColumns(next);
  };
  const options = [
    { id: LEFT_OUT, label: 'left out' },
    ...known.map(({ field, label, isNeeded }) => ({ id: field, label, about: isNeeded ? 'needed' : '' })),
  ];
  return (
    <div className="scroll-box list-preview">
      <table className="data-table">
        <thead>
          <tr>
            <th scope="col">Line</th>
            {settings.columns.map((field, index) => {
              const head = settings.hasHead ? (table.rows[0]?.cells[index] ?? '') : `column ${index + 1}`;
              return (
                // biome-ignore lint/suspicious/noArrayIndexKey: a column of a table is known by its place alone.
                <th key={index} scope="col">
                  <span className="list-head">{head}</span>
                  <SelectField
                    label={`What ${head} holds`}
                    hideLabel
                    value={field ?? LEFT_OUT}
                    onChange={(chosen) => setColumn(index, chosen)}
                    options={options}
                  />
                </th>
              );
            })}
            <th scope="col">What becomes of it</th>
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, MOST_SHOWN).map(({ line, cells }) => {
            const outcome = outcomes.get(line);
            return (
              <tr key={line} className={outcome?.isBad ? 'is-bad' : ''}>
                <td className="is-number">{line}</td>
                {settings.columns.map((_field, index) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: a cell of a table is known by its place alone.
                  <td key={index}>{cells[index] ?? ''}</td>
                ))}
                <td className="list-outcome">{outcome?.text ?? ''}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {rows.length > MOST_SHOWN && (
        <p className="empty">
          and {rows.length - MOST_SHOWN} more rows; {change.rejected.length} of all are not taken
        </p>
      )}
    </div>
  );
}
