import { useEffect } from 'react';
import { useApp, usePlan, useView } from '../state/hooks';
import { PartEditor } from './part-editor';
import { PartsTable } from './parts-table';

/** The list of what is to be made, and the chosen part in full. */
export function PartsView() {
  const { view } = useApp();
  const { parts } = usePlan();
  const selectedId = useView((state) => state.selection.find((feature) => feature.kind === 'part')?.id);
  const part = parts.find((candidate) => candidate.id === selectedId) ?? parts[0];

  useEffect(() => {
    if (part !== undefined && part.id !== selectedId) view.select([{ kind: 'part', id: part.id }]);
  }, [part, selectedId, view]);

  return (
    <div className="parts-page">
      <PartsTable selectedId={part?.id ?? ''} />
      {part !== undefined && <PartEditor key={part.id} part={part} />}
    </div>
  );
}
