import type { Why } from '../../shared/engine/figure';
import type { LengthUnits } from '../../shared/units/length-units';
import { formatQuantity } from '../../shared/units/quantity';

export interface WhyViewProps {
  readonly title: string;
  readonly value: string;
  readonly why: Why;
  readonly units: LengthUnits;
  readonly currency: string;
}

/** The workings of a number: what rule, which formula, what went in, and where the rule comes from. */
export function WhyView({ title, value, why, units, currency }: WhyViewProps) {
  return (
    <div className="why">
      <p className="why-head">
        <span>{title}</span>
        <strong>{value}</strong>
      </p>
      <p className="why-rule">{why.rule}</p>
      {why.formula !== '' && <p className="why-formula">{why.formula}</p>}
      {why.inputs.length > 0 && (
        <table className="why-inputs">
          <caption className="visually-hidden">What went in</caption>
          <tbody>
            {why.inputs.map((input) => (
              <tr key={`${input.name}:${input.value}`}>
                <th scope="row">{input.name}</th>
                <td>
                  {input.kind === 'text'
                    ? String(input.value)
                    : formatQuantity(input.value, input.kind, units, { currency })}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="why-source">Source: {why.source}</p>
    </div>
  );
}
