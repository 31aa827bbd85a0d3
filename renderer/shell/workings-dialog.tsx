import { useDeferredValue, useMemo, useState } from 'react';
import { Input, TextField } from 'react-aria-components';
import { findWorkings, getWorkings, type Working } from '../../shared/evaluate/workings';
import { useApp, useEvaluation, usePlan, useShop } from '../state/hooks';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { WhyView } from '../ui/why';

/** Every figure of the plan by topic, each with its formula, its numbers and its source; found by any words in it. */
export function WorkingsDialog({ onClose }: { onClose: () => void }) {
  const app = useApp();
  const plan = usePlan();
  const evaluation = useEvaluation();
  const { currency } = useShop();
  const [search, setSearch] = useState('');
  const sought = useDeferredValue(search);
  const topics = useMemo(
    () => getWorkings(plan, evaluation, { units: plan.units, currency }),
    [plan, evaluation, currency],
  );
  const found = useMemo(() => findWorkings(topics, sought), [topics, sought]);
  const isSought = sought.trim() !== '';
  const printWithSheet = (): void => {
    app.view.store.setState({ workingsPrinted: true });
    onClose();
    app.view.show('sheet');
  };
  return (
    <Dialog
      title="Workings"
      onClose={onClose}
      size="large"
      footer={<Button onPress={printWithSheet}>Add them to the sheet</Button>}
    >
      <TextField aria-label="Find a figure" autoFocus className="search-field" value={search} onChange={setSearch}>
        <Input className="input" placeholder="Find a figure: hold, Kienzle, rib …" />
      </TextField>
      {found.length === 0 && (
        <p className="empty">
          {isSought ? 'No figure with these words.' : 'Nothing can be worked out yet: see the findings.'}
        </p>
      )}
      {found.map((topic) => (
        <section key={topic.id} className="workings-topic" aria-label={topic.title}>
          <h3>{topic.title}</h3>
          {topic.workings.map((working) => (
            <WorkingRow key={working.id} working={working} />
          ))}
        </section>
      ))}
    </Dialog>
  );
}

function WorkingRow({ working }: { working: Working }) {
  const { units } = usePlan();
  const { currency } = useShop();
  const [isOpen, setOpen] = useState(false);
  return (
    <details className="workings-row" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span>{working.title}</span>
        <strong>{working.value}</strong>
      </summary>
      {isOpen && <WhyView why={working.why} units={units} currency={currency} />}
    </details>
  );
}
