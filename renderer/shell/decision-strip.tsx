import { memo } from 'react';
import { Button, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import type { Severity } from '../../shared/findings/finding';
import { useApp, useEvaluation, usePlan, usePlanFact, useShop } from '../state/hooks';
import { SEVERITY_WORDS, SeverityMark } from '../ui/icon';
import { WhyView } from '../ui/why';
import { FIGURE_KEYS, FIGURES, type FigureKey, formatFigure, getFigureSeverity } from './figures';

/** The figures the whole job turns on; each opens its workings. */
export function DecisionStrip() {
  const { dialogs } = useApp();
  const units = usePlanFact((plan) => plan.units);
  return (
    <section className="strip" aria-label="Decision figures">
      {FIGURE_KEYS.map((key) => (
        <StripFigure key={key} figureKey={key} />
      ))}
      <div className="strip-unit">
        <span>
          lengths in <strong>{units === 'in' ? 'inches' : 'mm'}</strong>
        </span>
        <Button className="strip-more" onPress={() => void dialogs.ask('workings', {})}>
          Workings
        </Button>
      </div>
    </section>
  );
}

function StripFigure({ figureKey }: { figureKey: FigureKey }) {
  const evaluation = useEvaluation();
  const { units } = usePlan();
  const { currency } = useShop();
  const figure = evaluation.figures[figureKey];
  return (
    <FigureFace
      figureKey={figureKey}
      text={figure === null ? '—' : formatFigure(figure, units, currency)}
      value={figure?.value ?? null}
      about={FIGURES[figureKey].about(evaluation, units)}
      severity={getFigureSeverity(figureKey, evaluation.findings)}
    />
  );
}

interface FaceProps {
  readonly figureKey: FigureKey;
  readonly text: string;
  readonly value: number | null;
  readonly about: string;
  readonly severity: Severity | null;
}

/** What of a figure is seen. Apart, so that on every frame of a drag only the figures that change are drawn again. */
const FigureFace = memo(function FigureFace({ figureKey, text, value, about, severity }: FaceProps) {
  const { label } = FIGURES[figureKey];
  return (
    <DialogTrigger>
      <Button className={`strip-figure${severity === null ? '' : ` is-${severity}`}`}>
        <span className="strip-label">{label}</span>
        <span className="strip-value">
          {severity !== null && <SeverityMark severity={severity} />}
          <span data-figure={figureKey} data-value={value ?? ''}>
            {text}
          </span>
          {severity !== null && <span className="visually-hidden">, {SEVERITY_WORDS[severity].one}</span>}
        </span>
        <span className="strip-about">{about}</span>
      </Button>
      <Popover className="popover why-popover" placement="top">
        <Dialog aria-label={`Workings of ${label}`}>
          <FigureWorkings figureKey={figureKey} text={text} />
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
});

function FigureWorkings({ figureKey, text }: Pick<FaceProps, 'figureKey' | 'text'>) {
  const { figures } = useEvaluation();
  const { units } = usePlan();
  const { currency } = useShop();
  const figure = figures[figureKey];
  if (figure === null) {
    return <p className="why-rule">This cannot be worked out yet: see the findings.</p>;
  }
  return <WhyView title={FIGURES[figureKey].label} value={text} why={figure.why} units={units} currency={currency} />;
}
