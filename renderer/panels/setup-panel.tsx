import type { ReactNode } from 'react';
import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import type { Shop } from '../../shared/model/shop';
import { formatLength } from '../../shared/units/format';
import { useApp, useEvaluation, useKnownShop, usePlan, useView } from '../state/hooks';
import { PanelSection } from '../ui/panel-section';
import { BarPanel } from './bar-panel';
import { CutsPanel } from './cuts-panel';
import { FacesPanel } from './faces-panel';
import { HoldPanel } from './hold-panel';
import { PartsList } from './parts-list';
import { ReleasePanel } from './release-panel';
import { TALL_WINDOW } from './tall-window';

interface Section {
  readonly id: string;
  readonly title: string;
  readonly body: () => ReactNode;
  readonly summary: (evaluation: Evaluation, plan: Plan, known: Shop) => string;
}

const SECTIONS: readonly Section[] = [
  {
    id: 'parts',
    title: 'Parts',
    body: PartsList,
    summary: (_evaluation, plan) => {
      const pieces = plan.parts.reduce((sum, part) => sum + part.quantity, 0);
      return plan.parts.length === 0
        ? 'none yet'
        : `${getCount(plan.parts.length, 'kind')}, ${getCount(pieces, 'piece')}`;
    },
  },
  {
    id: 'bar',
    title: 'Bar',
    body: BarPanel,
    summary: ({ section }, plan) => section?.name ?? (plan.parts.length === 0 ? '' : 'none fits'),
  },
  {
    id: 'hold',
    title: 'Holding',
    body: HoldPanel,
    summary: ({ vises, seat }, plan) => {
      if (vises === null || seat === null) return '';
      const word = {
        shelf: `shelf ${formatLength(seat.shelfDepth.value, plan.units)}`,
        parallels: 'parallels',
        bed: 'on the bed',
      };
      return `${getCount(vises.count.value, 'vise')}, ${word[seat.choice.value.kind]}`;
    },
  },
  {
    id: 'release',
    title: 'Cut-off',
    body: ReleasePanel,
    summary: ({ release }, _plan, known) => {
      if (release === null) return '';
      const cutter = known.tools.find((tool) => tool.id === release.cutterId.value);
      return cutter?.name ?? '';
    },
  },
  {
    id: 'cuts',
    title: 'Cuts',
    body: CutsPanel,
    summary: (_evaluation, plan) => `${plan.cuts.length} in order`,
  },
  {
    id: 'faces',
    title: 'Allowance',
    body: FacesPanel,
    summary: ({ allowance }) => {
      const short = allowance.filter((row) => !row.ok).length;
      return allowance.length === 0 ? '' : short === 0 ? 'enough on every face' : `short on ${getCount(short, 'face')}`;
    },
  },
];

/** The decisions of the setup, one foldable section each. What follows the plan is inside the sections, not around them. */
export function SetupPanel() {
  const { view } = useApp();
  const open = useView((state) => state.setupOpen);
  const toggle = (id: string, isOpen: boolean): void => {
    // A short window has room for one section; a tall one keeps what was opened.
    const others = window.innerHeight < TALL_WINDOW ? [] : open.filter((other) => other !== id);
    view.store.setState({ setupOpen: isOpen ? [...others, id] : open.filter((other) => other !== id) });
  };
  return (
    <div className="setup">
      {SECTIONS.map(({ id, title, body: Body, summary }) => (
        <PanelSection
          key={id}
          title={title}
          summary={<Summary of={summary} />}
          isOpen={open.includes(id)}
          onToggle={(isOpen) => toggle(id, isOpen)}
        >
          <Body />
        </PanelSection>
      ))}
    </div>
  );
}

function Summary({ of }: { of: Section['summary'] }) {
  return of(useEvaluation(), usePlan(), useKnownShop());
}

function getCount(count: number, one: string): string {
  return `${count} ${count === 1 ? one : `${one}s`}`;
}
