import { formatLength } from '../../shared/units/format';
import { useEvaluation, usePlan } from '../state/hooks';

/** Parts in a row on one blank: fewer loads, but not always less bar. */
export function GangTable() {
  const plan = usePlan();
  const { gang } = useEvaluation();
  if (gang.length === 0) return null;
  const say = (mm: number): string => formatLength(mm, plan.units);
  const partIds = [...new Set(gang.map((row) => row.partId))];
  return (
    <section className="order-section" aria-label="Parts a blank">
      <h2>Parts a blank</h2>
      <div className="gang-tables">
        {partIds.map((partId) => {
          const rows = gang.filter((row) => row.partId === partId);
          const most = rows.reduce((best, row) => (row.fits ? Math.max(best, row.partsPerBar) : best), 0);
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
                    <th scope="col">
                      <span className="visually-hidden">Remark</span>
                    </th>
                  </tr>
                </thead>
                <tbody>
                  {rows.map((row) => (
                    <tr key={row.partsPerBlank} className={row.fits ? '' : 'is-unfit'}>
                      <td className="is-number">{row.partsPerBlank}</td>
                      <td className="is-number">{say(row.blankLength)}</td>
                      <td className="is-number">{row.blanksPerBar}</td>
                      <td className="is-number">
                        <strong>{row.partsPerBar}</strong>
                      </td>
                      <td className="is-number">{say(row.drop)}</td>
                      <td className="is-number">{row.vises}</td>
                      <td>{row.fits ? (row.partsPerBar === most ? 'most from a bar' : '') : row.reason}</td>
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
