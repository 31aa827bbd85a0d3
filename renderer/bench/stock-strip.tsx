import { memo, useCallback, useMemo } from 'react';
import { Button, Toolbar } from 'react-aria-components';
import type { View } from '../../shared/drawing/marks';
import { buildBarCuts } from '../../shared/drawing/views/bar-cuts';
import type { BarUse, CutListLine } from '../../shared/engine/results';
import { formatLength } from '../../shared/units/format';
import type { LengthUnits } from '../../shared/units/length-units';
import { Calm } from '../shell/calm';
import { AfterFirstPicture } from '../shell/first-picture';
import { useEvaluation, usePlanFact } from '../state/hooks';
import { Drawing } from '../ui/drawing';
import { getBlankIndex } from './bench-model';
import { getStockBar } from './stock-bar';
import { useBench, useBenchSession } from './use-bench';

/**
 * The bar that the blank in view is sawn from, over the elevation. Its room is there from the start, so that nothing
 * moves when it comes, which is after the first picture; it follows a drag as the side panels do.
 */
export const StockStrip = memo(function StockStrip() {
  return (
    <div className="bench-stock">
      <AfterFirstPicture>
        <Calm>
          <BarInView />
        </Calm>
      </AfterFirstPicture>
    </div>
  );
});

function BarInView() {
  const units = usePlanFact((plan) => plan.units);
  const evaluation = useEvaluation();
  const blankId = useBench((state) => state.blankId);
  const templateId = evaluation.blanks[getBlankIndex(evaluation, blankId)]?.templateId ?? '';
  const stock = useMemo(() => getStockBar(evaluation.order, templateId, units), [evaluation.order, templateId, units]);
  if (stock === null) return null;
  return (
    <section className="bench-stock-bar" aria-label="Stock bar">
      <p>
        <strong>{stock.name}</strong>: <span className="bench-note">{stock.says}</span>
      </p>
      <BarPicture bar={stock.bar} name={stock.name} templateId={templateId} units={units} />
    </section>
  );
}

interface BarPictureProps {
  readonly bar: BarUse;
  readonly name: string;
  readonly templateId: string;
  readonly units: LengthUnits;
}

/** Height of the bar as drawn, mm of paper. */
const BAR_HEIGHT = 4.6;
/** All of the width is the bar's but the edge that every view keeps round its marks, mm of paper. */
const MARGIN = { across: 4, up: 0 };

const BarPicture = memo(function BarPicture({ bar, name, templateId, units }: BarPictureProps) {
  const build = useCallback(
    (mmPerPaperMm: number): View =>
      buildBarCuts(bar, { mmPerPaperMm, units, dimensions: false, barHeight: BAR_HEIGHT, marked: templateId }),
    [bar, templateId, units],
  );
  const say = (line: CutListLine): string => `${line.label} ${formatLength(line.length, units)}`;
  const blanks = bar.lines.filter((line) => line.blankTemplateId !== '');
  const isChoice = blanks.some((line) => line.blankTemplateId !== templateId);
  return (
    <div className="bench-stock-picture">
      <Drawing label={`${name}: ${bar.lines.map(say).join(', ')}`} length={bar.length} margin={MARGIN} build={build} />
      {isChoice && (
        <Toolbar className="bench-stock-blanks" aria-label={`Blanks on ${name}`}>
          {blanks.map((line) => (
            <BlankButton key={line.sequence} line={line} bar={bar} says={say(line)} templateId={templateId} />
          ))}
        </Toolbar>
      )}
    </div>
  );
});

interface BlankButtonProps {
  readonly line: CutListLine;
  readonly bar: BarUse;
  readonly says: string;
  readonly templateId: string;
}

/** Lies over a blank of the picture: what is pressed comes into view. */
function BlankButton({ line, bar, says, templateId }: BlankButtonProps) {
  const { store } = useBenchSession();
  const isInView = line.blankTemplateId === templateId;
  return (
    <Button
      className="bench-stock-blank"
      aria-label={isInView ? `${says}, in view` : `Show ${says}`}
      style={{ left: `${(line.from / bar.length) * 100}%`, width: `${(line.length / bar.length) * 100}%` }}
      onPress={() => store.setState({ blankId: line.blankTemplateId })}
    />
  );
}
