import { useCallback } from 'react';
import { buildBarCuts } from '../../shared/drawing/views/bar-cuts';
import type { BarUse, CutListLine } from '../../shared/engine/results';
import { computeRackAfterJob } from '../../shared/evaluate/rack-after-job';
import type { Shop } from '../../shared/model/shop';
import { formatLength } from '../../shared/units/format';
import { useApp, useEvaluation, useKnownShop, usePlan } from '../state/hooks';
import { Button } from '../ui/button';
import { Drawing } from '../ui/drawing';
import { SeverityMark } from '../ui/icon';
import { PrintCutList } from './print-cut-list';

const KIND_WORDS: Readonly<Record<CutListLine['kind'], string>> = {
  trim: 'squaring trim',
  badEnd: 'bad end',
  blank: 'blank',
  partBlank: 'blank',
  drop: 'drop',
};

/** Each bar as it is sawn: the picture, then every cut in order. */
export function BarsToSaw() {
  const { order } = useEvaluation();
  if (order === null || order.bars.length === 0) return null;
  const longest = order.bars.reduce((most, bar) => Math.max(most, bar.length), 0);
  return (
    <section className="order-section" aria-label="Cut list">
      <header className="order-head">
        <h2>Cut list</h2>
        <div className="button-row">
          <RackButton />
          <PrintCutList />
        </div>
      </header>
      {order.bars.map((bar) => (
        <BarToSaw key={bar.barIndex} bar={bar} longest={longest} />
      ))}
    </section>
  );
}

/** After the job: what was used leaves the rack, what is worth keeping goes on it. One step, undone like any other. */
function RackButton() {
  const { documents } = useApp();
  const plan = usePlan();
  const known = useKnownShop();
  const { order, section } = useEvaluation();
  const bar = known.bars.find((one) => one.id === section?.barId.value);
  if (order === null || bar === undefined) return null;
  const change = (shop: Shop) => computeRackAfterJob(shop, order, bar, plan.stock.heatMark);
  const { used, kept } = change(known);
  if (used + kept === 0) return null;
  const words = [kept === 0 ? '' : `put ${kept} kept`, used === 0 ? '' : `take ${used} used`].filter(
    (text) => text !== '',
  );
  return (
    <Button
      onPress={() => documents.editShop('the rack after the job', (shop) => ({ ...shop, rack: change(shop).rack }))}
    >
      Sawn: {words.join(', ')} {used === 0 ? 'on' : 'off'} the rack
    </Button>
  );
}

function BarToSaw({ bar, longest }: { bar: BarUse; longest: number }) {
  const { units } = usePlan();
  const say = (mm: number): string => formatLength(mm, units);
  const build = useCallback(
    (mmPerPaperMm: number) => buildBarCuts(bar, { mmPerPaperMm, units, dimensions: false }),
    [bar, units],
  );
  const name = `Bar ${bar.barIndex + 1}`;
  return (
    <article className="bar-to-saw" aria-label={name}>
      <header>
        <h3>
          {name}
          {bar.times > 1 && ` and ${bar.times - 1} more like it`}
        </h3>
        <p>
          {bar.kind === 'remnant' ? 'from the rack, ' : ''}
          {formatLength(bar.length, units, { unit: true, trim: true })}, {bar.cuts} {bar.cuts === 1 ? 'cut' : 'cuts'},{' '}
          {bar.dropIsRemnant ? 'keep' : 'drop'} {say(bar.drop)}
        </p>
        {bar.zeroMargin && (
          <p className="is-check">
            <SeverityMark severity="check" /> only {say(bar.margin)} to spare: measure before sawing
          </p>
        )}
      </header>
      <Drawing
        label={`${name}: ${bar.lines.map((line) => `${line.label} ${say(line.length)}`).join(', ')}`}
        length={longest}
        margin={2}
        build={build}
      />
      <details>
        <summary>Every cut, in order</summary>
        <table className="data-table cut-table">
          <thead>
            <tr>
              <th scope="col" className="is-number">
                No.
              </th>
              <th scope="col">Piece</th>
              <th scope="col">What</th>
              <th scope="col" className="is-number">
                Length, {units}
              </th>
              <th scope="col" className="is-number">
                From
              </th>
              <th scope="col" className="is-number">
                To
              </th>
              <th scope="col" className="is-number">
                Kerf
              </th>
            </tr>
          </thead>
          <tbody>
            {bar.lines.map((line) => (
              <tr key={line.sequence}>
                <td className="is-number">{line.sequence}</td>
                <td>{line.label}</td>
                <td>{KIND_WORDS[line.kind]}</td>
                <td className="is-number">
                  <strong>{say(line.length)}</strong>
                </td>
                <td className="is-number">{say(line.from)}</td>
                <td className="is-number">{say(line.to)}</td>
                <td className="is-number">{line.kerf > 0 ? say(line.kerf) : 'no cut'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </article>
  );
}
