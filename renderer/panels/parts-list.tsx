import { memo } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import type { Evaluation } from '../../shared/evaluate';
import type { FeatureRef } from '../../shared/findings/finding';
import type { Part, Plan } from '../../shared/model/plan';
import { formatLength } from '../../shared/units/format';
import type { App } from '../state/app';
import { useApp, useEvaluation, usePlan, useView } from '../state/hooks';
import { addPart } from '../state/part-edits';
import { Button } from '../ui/button';

/** The parts on the Bench's side panel: what and how many; one selected on the canvas is marked here. */
export function PartsList() {
  const app = useApp();
  const plan = usePlan();
  const evaluation = useEvaluation();
  const selection = useView((state) => state.selection);
  const selected = getSelectedParts(selection, evaluation);
  const add = (): void => {
    const added = addPart(plan);
    app.documents.edit('add a part', () => added.plan);
    edit(app, added.id);
  };
  return (
    <>
      <ul className="plain-list">
        {plan.parts.map((part) => {
          const row = evaluation.spares.find((candidate) => candidate.partId === part.id);
          const spares = row !== undefined && row.spares > 0 ? row.made - row.ordered : 0;
          return (
            <li key={part.id}>
              <PartCard part={part} units={plan.units} spares={spares} isSelected={selected.has(part.id)} />
            </li>
          );
        })}
      </ul>
      <Button look="quiet" onPress={add}>
        Add a part
      </Button>
    </>
  );
}

interface PartCardProps {
  readonly part: Part;
  readonly units: Plan['units'];
  readonly spares: number;
  readonly isSelected: boolean;
}

const PartCard = memo(function PartCard({ part, units, spares, isSelected }: PartCardProps) {
  const app = useApp();
  const sizes = [part.length, part.height, part.thickness].map((size) => formatLength(size, units));
  return (
    <AriaButton
      className={`part-card${isSelected ? ' is-selected' : ''}`}
      onPress={() => edit(app, part.id)}
      onHoverStart={() => app.view.pointAt([{ kind: 'part', id: part.id }])}
      onHoverEnd={() => app.view.pointAt([])}
    >
      <span className="visually-hidden">Edit </span>
      <span className="part-name">{part.name === '' ? 'Unnamed part' : part.name}</span>
      <span className="part-count">{part.quantity}</span>
      <span className="part-size">{sizes.join(' × ')}</span>
      <span className="part-spares">{spares > 0 ? `+ ${spares} spare` : ''}</span>
    </AriaButton>
  );
});

function edit({ view }: App, id: string): void {
  view.select([{ kind: 'part', id }]);
  view.show('parts');
}

/** Parts that are selected by themselves, or by a piece of them on a bar. */
function getSelectedParts(selection: readonly FeatureRef[], { blanks }: Evaluation): Set<string> {
  const pieces = blanks.flatMap((blank) => blank.parts);
  const ids = selection.filter((feature) => feature.kind === 'part').map((feature) => feature.id);
  return new Set(ids.map((id) => pieces.find((piece) => piece.slotId === id)?.partId ?? id));
}
