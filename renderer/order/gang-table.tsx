import type { BlankResult, GangRow } from '../../shared/engine/results';
import { formatLength } from '../../shared/units/format';
import { formatQuantity } from '../../shared/units/quantity';
import { useEvaluation, useKnownShop, usePlan } from '../state/hooks';

/** Parts in a row on one blank: fewer loads, but not always less bar. */
export function GangTable() {
  const plan = usePlan();
  const { gang, blanks, spares } = useEvaluation();
  if (gang.length === 0) return null;
  const say = (mm: number): string => formatLength(mm, plan.units);
  const partIds = [...new Set(gang.map((row) => row.partId))];
  return (
    <section className="order-section" aria-label="Parts a blank">
      <h2>Parts a blank</h2>
      <LoadsSentence />
      <div className="gang-tables">
        {partIds.map((partId) => {
          const rows = gang.filter((row) => row.partId === partId);
          const most = rows.reduce((best, row) => (row.fits ? Math.max(best, row.partsPerBar) : best), 0);
          const make = spares.find((row) => row.partId === partId)?.make ?? 0;
          const used = countBlanksBySize(blanks, partId);
          const name = plan.parts.find((part) => part.id === partId)?.name ?? partId;
          return (
            <div key={partId} className="scroll-box">
              <table className="data-table">
                <caption>{name}</caption>
                <thead>
                  <tr>
                    <th scope="col" className="is-number">
                      In a row
                    </th>
                    <th scope="col" className="is-number">
                      Blank, {plan.units}
                    </th>
                    <th scope="col" className="is-number">
                      Blanks a bar
                    </th>
                    <th scope="col" className="is-number">
                      Parts a bar
                    </th>
                    <th scope="col" className="is-number">
                      Drop
                    </th>
                    <th scope="col" className="is-number">
                      Vises
                    </th>
                    <th scope="col" className="is-number">
                      Loads
                    </th>
                    <th scope="col">
                      <span className="visually-hidden">Remark</span>
                    </th>
                  </tr>
                </thead>
                <tbody>
                  {rows.map((row) => (
                    <tr
                      key={row.partsPerBlank}
                      className={`${row.fits ? '' : 'is-unfit'}${used.has(row.partsPerBlank) ? ' is-chosen' : ''}`}
                    >
                      <td className="is-number">{row.partsPerBlank}</td>
                      <td className="is-number">{say(row.blankLength)}</td>
                      <td className="is-number">{row.blanksPerBar}</td>
                      <td className="is-number">
                        <strong>{row.partsPerBar}</strong>
                      </td>
                      <td className="is-number">{say(row.drop)}</td>
                      <td className="is-number">{row.vises}</td>
                      <td className="is-number">{Math.ceil(make / row.partsPerBlank)}</td>
                      <td>{getRemark(row, most, used.get(row.partsPerBlank) ?? 0)}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          );
        })}
      </div>
    </section>
  );
}

/** Gangs save loads of the vises, not bar: what the fewest loads would cost beside what is planned. */
function LoadsSentence() {
  const { units } = usePlan();
  const { currency } = useKnownShop();
  const { order } = useEvaluation();
  if (order === null) return null;
  const { loads, fewestLoads, cost } = order;
  const now = `The vises are loaded ${loads} ${loads === 1 ? 'time' : 'times'}.`;
  if (fewestLoads === null) return <p className="grip-price">{now}</p>;
  const bars = `${fewestLoads.bars} ${fewestLoads.bars === 1 ? 'bar' : 'bars'}`;
  const extra = fewestLoads.cost === null || cost === null ? null : fewestLoads.cost - cost.value;
  const money =
    extra === null || extra <= 0 ? '' : `, about ${formatQuantity(extra, 'money', units, { currency })} more`;
  return (
    <p className="grip-price">
      {now} The longest blanks they hold would make it {fewestLoads.loads}, from {bars}
      {money}: pin the number of parts a blank if that is worth it.
    </p>
  );
}

/** Blanks that carry this part alone, by how many of it are on one. */
function countBlanksBySize(blanks: readonly BlankResult[], partId: string): Map<number, number> {
  const counts = new Map<number, number>();
  for (const { parts, count } of blanks) {
    if (parts.every((placed) => placed.partId === partId))
      counts.set(parts.length, (counts.get(parts.length) ?? 0) + count);
  }
  return counts;
}

function getRemark({ fits, reason, partsPerBar }: GangRow, most: number, used: number): string {
  if (!fits) return reason;
  const words = [used > 0 ? `${used} of these` : '', partsPerBar === most ? 'most from a bar' : ''];
  return words.filter((text) => text !== '').join('; ');
}
