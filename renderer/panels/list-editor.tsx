import type { ReactNode } from 'react';
import { Button, IconButton } from '../ui/button';

export interface ListEditorProps {
  readonly title: string;
  readonly about: string;
  readonly columns: readonly string[];
  readonly rows: readonly { readonly key: string; readonly name: string }[];
  readonly addLabel: string;
  readonly onAdd: () => void;
  readonly onRemove: (index: number) => void;
  readonly renderCells: (index: number) => readonly ReactNode[];
}

/** A short list of things with a few numbers each, typed in place. */
export function ListEditor(props: ListEditorProps) {
  return (
    <section className="list-editor" aria-label={props.title}>
      <header>
        <h3>{props.title}</h3>
        <p>{props.about}</p>
        <Button look="quiet" onPress={props.onAdd}>
          {props.addLabel}
        </Button>
      </header>
      {props.rows.length > 0 && (
        <table className="data-table">
          <thead>
            <tr>
              {props.columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
              <th scope="col">
                <span className="visually-hidden">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {props.rows.map((row, index) => (
              <tr key={row.key}>
                {props.renderCells(index).map((cell, column) => (
                  <td key={props.columns[column]}>{cell}</td>
                ))}
                <td className="row-buttons">
                  <IconButton icon="trash" label={`Remove ${row.name}`} onPress={() => props.onRemove(index)} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}
