import { Button, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { useEvaluation, usePlan, useShop } from '../state/hooks';
import { SEVERITY_WORDS, SeverityMark } from '../ui/icon';
import { WhyView } from '../ui/why';
import { FIGURE_KEYS, FIGURES, type FigureKey, formatFigure, getFigureSeverity } from './figures';

/** The figures the whole job turns on; each opens its workings. */
export function DecisionStrip() {
  const plan = usePlan();
  return (
    <section className="strip" aria-label="Decision figures">
      {FIGURE_KEYS.map((key) => (
        <StripFigure key={key} figureKey={key} />
      ))}
      <p className="strip-unit">
        lengths in <strong>{plan.units === 'in' ? 'inches' : 'mm'}</strong>
      </p>
    </section>
  );
}

function StripFigure({ figureKey }: { figureKey: FigureKey }) {
  const evaluation = useEvaluation();
  const { units } = usePlan();
  const { currency } = useShop();
  const figure = evaluation.figures[figureKey];
  const info = FIGURES[figureKey];
  const severity = getFigureSeverity(figureKey, evaluation.findings);
  const value = figure === null ? '—' : formatFigure(figure, units, currency);
  return (
    <DialogTrigger>
      <Button className={`strip-figure${severity === null ? '' : ` is-${severity}`}`}>
        <span className="strip-label">{info.label}</span>
        <span className="strip-value">
          {severity !== null && <SeverityMark severity={severity} />}
          <span data-figure={figureKey} data-value={figure?.value ?? ''}>
            {value}
          </span>
          {severity !== null && <span className="visually-hidden">, {SEVERITY_WORDS[severity].one}</span>}
        </span>
        <span className="strip-about">{info.about(evaluation, units)}</span>
      </Button>
      <Popover className="popover why-popover" placement="top">
        <Dialog aria-label={`Workings of ${info.label}`}>
          {figure === null ? (
            <p className="why-rule">This cannot be worked out yet: see the findings.</p>
          ) : (
            <WhyView title={info.label} value={value} why={figure.why} units={units} currency={currency} />
          )}
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
