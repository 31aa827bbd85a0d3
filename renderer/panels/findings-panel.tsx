import { useDeferredValue } from 'react';
import { Button as AriaButton, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import type { Figure } from '../../shared/engine/figure';
import type { Finding, Severity } from '../../shared/findings/finding';
import { formatQuantity } from '../../shared/units/quantity';
import { useEvaluation, useEvaluationFault, usePlan, useShop } from '../state/hooks';
import { Disclosure } from '../ui/disclosure';
import { SEVERITY_WORDS, SeverityMark } from '../ui/icon';
import { WhyView } from '../ui/why';
import { FindingCard } from './finding-card';
import { useAtRest } from './use-at-rest';

const ORDER: readonly Severity[] = ['stop', 'check', 'note'];

/** What the check of the plan has found, the worst first; each says its numbers and, where it can, mends itself. */
export function FindingsPanel() {
  // Hundreds of them change with every step of a drag: they wait until it rests, and are then drawn between the frames.
  const findings = useDeferredValue(useAtRest(useEvaluation().findings));
  const fault = useEvaluationFault();
  const open = findings.filter((finding) => !finding.accepted);
  const accepted = findings.filter((finding) => finding.accepted);
  return (
    <div className="findings">
      {fault !== '' && (
        <p className="finding is-stop" role="alert">
          The figures are of your last change but one: this plan could not be worked out ({fault}). Undo, or report it.
        </p>
      )}
      {findings.length === 0 && fault === '' && <p className="empty">Nothing to remark on.</p>}
      {ORDER.map((severity) => (
        <FindingGroup
          key={severity}
          severity={severity}
          findings={open.filter((finding) => finding.severity === severity)}
        />
      ))}
      <ChanceLine />
      {accepted.length > 0 && (
        <Disclosure title={`${accepted.length} accepted`}>
          <ul className="plain-list">
            {accepted.map((finding) => (
              <FindingCard key={finding.key} finding={finding} />
            ))}
          </ul>
        </Disclosure>
      )}
    </div>
  );
}

/** How likely the setup comes out well, beside the worst case that the findings judge. */
function ChanceLine() {
  const { chance } = useEvaluation();
  const { units } = usePlan();
  const { currency } = useShop();
  if (chance === null) return null;
  const say = (figure: Figure): string => formatQuantity(figure.value, figure.kind, units, { currency });
  return (
    <DialogTrigger>
      <AriaButton className="chance-line">
        <span>Chance that grip, allowance and hold are met</span>
        <strong data-figure="chance" data-value={chance.all.value}>
          {say(chance.all)}
        </strong>
        <span className="chance-parts">
          grip {say(chance.grip)}, allowance {say(chance.allowance)}, hold {say(chance.hold)}; an estimate
        </span>
      </AriaButton>
      <Popover className="popover why-popover" placement="left">
        <Dialog aria-label="Workings of the chance">
          <WhyView
            title="Grip, allowance and hold"
            value={say(chance.all)}
            why={chance.all.why}
            units={units}
            currency={currency}
          />
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}

function FindingGroup({ severity, findings }: { severity: Severity; findings: readonly Finding[] }) {
  if (findings.length === 0) return null;
  const words = SEVERITY_WORDS[severity];
  const label = `${findings.length} ${findings.length === 1 ? words.one : words.many}`;
  return (
    <section aria-label={label}>
      <h3 className={`finding-heading is-${severity}`}>
        <SeverityMark severity={severity} /> {label}
      </h3>
      <ul className="plain-list">
        {findings.map((finding) => (
          <FindingCard key={finding.key} finding={finding} />
        ))}
      </ul>
    </section>
  );
}
