import { Button as AriaButton } from 'react-aria-components';
import { formatLength } from '../../shared/units/format';
import { useApp, useEvaluation, usePlan, useView } from '../state/hooks';
import { addPart } from '../state/part-edits';
import { isSameFeature } from '../state/view';
import { Button } from '../ui/button';

/** The parts on the Bench's side panel: what and how many; choosing one selects it on the canvas. */
export function PartsList() {
  const { documents, view } = useApp();
  const plan = usePlan();
  const { spares } = useEvaluation();
  const selection = useView((state) => state.selection);
  const edit = (id: string): void => {
    view.select([{ kind: 'part', id }]);
    view.show('parts');
  };
  const add = (): void => {
    const added = addPart(plan);
    documents.edit('add a part', () => added.plan);
    edit(added.id);
  };
  return (
    <>
      <ul className="plain-list">
        {plan.parts.map((part) => {
          const row = spares.find((candidate) => candidate.partId === part.id);
          const feature = { kind: 'part', id: part.id } as const;
          const isSelected = selection.some((other) => isSameFeature(other, feature));
          const sizes = [part.length, part.height, part.thickness].map((size) => formatLength(size, plan.units));
          return (
            <li key={part.id}>
              <AriaButton
                className={`part-card${isSelected ? ' is-selected' : ''}`}
                onPress={() => edit(part.id)}
                onHoverStart={() => view.pointAt([feature])}
                onHoverEnd={() => view.pointAt([])}
              >
                <span className="visually-hidden">Edit </span>
                <span className="part-name">{part.name === '' ? 'Unnamed part' : part.name}</span>
                <span className="part-count">{part.quantity}</span>
                <span className="part-size">{sizes.join(' × ')}</span>
                <span className="part-spares">
                  {row !== undefined && row.spares > 0 ? `+ ${row.made - row.ordered} spare` : ''}
                </span>
              </AriaButton>
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
