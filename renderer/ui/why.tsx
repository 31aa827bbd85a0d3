import type { Why } from '../../shared/engine/figure';
import { getWorkingText } from '../../shared/evaluate/workings-text';
import type { LengthUnits } from '../../shared/units/length-units';

export interface WhyViewProps {
  /** The head with the number; left out where it already stands above. */
  readonly title?: string;
  readonly value?: string;
  readonly why: Why;
  readonly units: LengthUnits;
  readonly currency: string;
}

/** The workings of a number: what rule, which formula, what went in, and where the rule comes from. */
export function WhyView({ title, value, why, units, currency }: WhyViewProps) {
  const text = getWorkingText(why, { units, currency });
  return (
    <div className="why">
      {title !== undefined && (
        <p className="why-head">
          <span>{title}</span>
          <strong>{value}</strong>
        </p>
      )}
      <p className="why-rule">{text.rule}</p>
      {text.formula !== '' && (
        <div className="why-formula">
          <p>{text.formula}</p>
          {text.filled !== '' && <p>{text.filled}</p>}
        </div>
      )}
      {text.inputs.length > 0 && (
        <table className="why-inputs">
          <caption className="visually-hidden">What went in</caption>
          <tbody>
            {text.inputs.map(([name, input]) => (
              <tr key={`${name}:${input}`}>
                <th scope="row">{name}</th>
                <td>{input}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="why-source">Source: {text.source}</p>
    </div>
  );
}
