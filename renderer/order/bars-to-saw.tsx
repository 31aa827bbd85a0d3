import { useCallback } from 'react';
import { buildBarCuts } from '../../shared/drawing/views/bar-cuts';
import type { BarUse, CutListLine } from '../../shared/engine/results';
import { formatLength } from '../../shared/units/format';
import { useEvaluation, usePlan } from '../state/hooks';
import { Drawing } from '../ui/drawing';
import { SeverityMark } from '../ui/icon';

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
      <h2>Cut list</h2>
      {order.bars.map((bar) => (
        <BarToSaw key={bar.barIndex} bar={bar} longest={longest} />
      ))}
    </section>
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
