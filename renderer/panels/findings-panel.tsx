import type { Finding, Severity } from '../../shared/findings/finding';
import { useEvaluation, useEvaluationFault } from '../state/hooks';
import { Disclosure } from '../ui/disclosure';
import { SEVERITY_WORDS, SeverityMark } from '../ui/icon';
import { FindingCard } from './finding-card';

const ORDER: readonly Severity[] = ['stop', 'check', 'note'];

/** What the check of the plan has found, the worst first; each says its numbers and, where it can, mends itself. */
export function FindingsPanel() {
  const { findings } = useEvaluation();
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
