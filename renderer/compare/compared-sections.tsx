import { useCallback, useMemo } from 'react';
import type { View } from '../../shared/drawing/marks';
import { buildEndSection } from '../../shared/drawing/views/end-section';
import { Drawing } from '../ui/drawing';
import type { Compared } from './compared-figures';

/** Two end sections at one scale, the jaw tops at one height, so that the eye can go straight across. */
export function ComparedSections({
  left,
  right,
  names,
}: {
  left: Compared;
  right: Compared;
  names: readonly string[];
}) {
  const fit = useMemo(() => measureFit(left, right), [left, right]);
  const buildPair = useCallback(
    (mmPerPaperMm: number): readonly View[] => {
      const views = [buildSection(left, mmPerPaperMm), buildSection(right, mmPerPaperMm)];
      const bounds = getUnion(views);
      return views.map((view) => ({ ...view, bounds }));
    },
    [left, right],
  );
  return (
    <div className="compared-sections">
      {names.map((name, index) => (
        <SectionPicture
          // biome-ignore lint/suspicious/noArrayIndexKey: there are two, known by their side.
          key={index}
          label={`End section of ${name}`}
          index={index}
          fit={fit}
          buildPair={buildPair}
        />
      ))}
    </div>
  );
}

function SectionPicture(props: {
  label: string;
  index: number;
  fit: Fit;
  buildPair: (mmPerPaperMm: number) => readonly View[];
}) {
  const { label, index, fit, buildPair } = props;
  const build = useCallback(
    (mmPerPaperMm: number) => {
      const view = buildPair(mmPerPaperMm)[index];
      if (view === undefined) throw new RangeError(`There is no section ${index}.`);
      return view;
    },
    [buildPair, index],
  );
  return <Drawing label={label} {...fit} build={build} />;
}

interface Fit {
  readonly length: number;
  readonly height: number;
  readonly margin: { readonly across: number; readonly up: number };
}

/** Letters keep their size on paper while the metal is scaled, so two scales tell the one from the other. */
function measureFit(left: Compared, right: Compared): Fit {
  const measure = (mmPerPaperMm: number): { width: number; height: number } => {
    const bounds = getUnion([buildSection(left, mmPerPaperMm), buildSection(right, mmPerPaperMm)]);
    return { width: bounds.right - bounds.left, height: bounds.top - bounds.bottom };
  };
  const [once, twice] = [measure(1), measure(2)];
  const margin = { across: twice.width - once.width, up: twice.height - once.height };
  return { length: once.width - margin.across, height: once.height - margin.up, margin };
}

function buildSection({ plan, evaluation, shop }: Compared, mmPerPaperMm: number): View {
  return buildEndSection(plan, evaluation, shop, { mmPerPaperMm, bothUnits: false });
}

function getUnion(views: readonly View[]): View['bounds'] {
  const bounds = views.map((view) => view.bounds);
  return {
    left: Math.min(...bounds.map(({ left }) => left)),
    right: Math.max(...bounds.map(({ right }) => right)),
    bottom: Math.min(...bounds.map(({ bottom }) => bottom)),
    top: Math.max(...bounds.map(({ top }) => top)),
  };
}
