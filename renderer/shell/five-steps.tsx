import { useApp } from '../state/hooks';
import { addPart } from '../state/part-edits';
import { Button } from '../ui/button';

const STEPS = [
  ['List the parts', 'Length, height as held, thickness, and how many.'],
  ['Choose metal and bar', 'Or leave the section to the planner: it takes the cheapest that holds.'],
  ['Look at the hold', 'Vises, jaws, shelf or parallels; the findings say what is too little.'],
  ['Order the bar', 'How many to buy, how to saw them, what is left over.'],
  ['Print the sheet', 'What stands at the machine: sizes, cuts, cautions.'],
] as const;

/** What an empty plan shows instead of an empty drawing. */
export function FiveSteps() {
  const { documents, view, files, start } = useApp();
  const add = (): void => {
    const added = addPart(documents.store.getState().plan);
    documents.edit('add a part', () => added.plan);
    view.select([{ kind: 'part', id: added.id }]);
    view.show('parts');
  };
  return (
    <section className="five-steps" aria-label="Five steps">
      <h2>From parts to the sheet</h2>
      <ol>
        {STEPS.map(([title, text]) => (
          <li key={title}>
            <strong>{title}</strong>
            <span>{text}</span>
          </li>
        ))}
      </ol>
      <div className="button-row">
        <Button look="primary" onPress={add}>
          Add the first part
        </Button>
      </div>
      <p>Or look at a job that is planned already:</p>
      <div className="button-row">
        {start.samples.map((sample) => (
          <Button key={sample.id} onPress={() => void files.openSample(sample.id)}>
            Open {sample.title}
          </Button>
        ))}
      </div>
    </section>
  );
}
