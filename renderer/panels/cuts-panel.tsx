import { useState } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import { nextId } from '../../shared/model/next-id';
import type { Cut } from '../../shared/model/plan';
import { formatLength } from '../../shared/units/format';
import { formatNumber } from '../../shared/units/format-number';
import { useApp, useEvaluation, usePlan } from '../state/hooks';
import { getStepWords } from '../state/step-words';
import { Button, IconButton } from '../ui/button';
import { CutDialog } from './cut-dialog';

/** The cuts in the order of work; the cut-off belongs last. */
export function CutsPanel() {
  const { documents } = useApp();
  const plan = usePlan();
  const [openId, setOpenId] = useState<string | null>(null);
  const add = (): void => {
    const model = plan.cuts.find((cut) => cut.kind === 'side') ?? plan.cuts[0];
    if (model === undefined) return;
    const id = nextId(plan.cuts, 'cut');
    documents.edit('add a cut', (before) => insertBeforeCutOff(before, { ...model, id, name: 'New cut' }));
    setOpenId(id);
  };
  return (
    <>
      <ol className="cut-list">
        {plan.cuts.map((cut, index) => (
          <CutLine key={cut.id} cut={cut} index={index} onOpen={() => setOpenId(cut.id)} />
        ))}
      </ol>
      <Button look="quiet" onPress={add}>
        Add a cut
      </Button>
      {openId !== null && <CutDialog cutId={openId} onClose={() => setOpenId(null)} />}
    </>
  );
}

function CutLine({ cut, index, onOpen }: { cut: Cut; index: number; onOpen: () => void }) {
  const { documents } = useApp();
  const { cuts, units } = usePlan();
  const { reach, blanks, governingBlank } = useEvaluation();
  const row = reach.find((candidate) => candidate.cutId === cut.id);
  const hold = blanks[governingBlank]?.hold.rows.find((candidate) => candidate.cutId === cut.id);
  const move = (by: number): void =>
    documents.edit(`move ${getStepWords(cut.name)} ${by < 0 ? 'earlier' : 'later'}`, (plan) => ({
      ...plan,
      cuts: swap(plan.cuts, index, index + by),
    }));
  const facts = [
    row === undefined ? '' : `out ${formatLength(row.stickOut.value, units)}`,
    hold === undefined ? '' : `hold × ${formatNumber(hold.factor, { decimals: 1 })}`,
  ];
  return (
    <li className="cut-line">
      <AriaButton className="cut-open" onPress={onOpen}>
        <span>
          <span className="visually-hidden">Edit </span>
          {index + 1}. {cut.name}
        </span>
        <small>{facts.filter((fact) => fact !== '').join(', ')}</small>
      </AriaButton>
      <IconButton icon="up" label={`Do ${cut.name} earlier`} isDisabled={index === 0} onPress={() => move(-1)} />
      <IconButton
        icon="down"
        label={`Do ${cut.name} later`}
        isDisabled={index === cuts.length - 1}
        onPress={() => move(1)}
      />
    </li>
  );
}

function insertBeforeCutOff<P extends { cuts: Cut[] }>(plan: P, cut: Cut): P {
  const at = plan.cuts.findIndex((candidate) => candidate.kind === 'cutOff');
  const place = at < 0 ? plan.cuts.length : at;
  return { ...plan, cuts: plan.cuts.toSpliced(place, 0, cut) };
}

function swap(cuts: readonly Cut[], one: number, other: number): Cut[] {
  const first = cuts[one];
  const second = cuts[other];
  if (first === undefined || second === undefined) return [...cuts];
  return cuts.with(one, second).with(other, first);
}
