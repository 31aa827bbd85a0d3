import type { Finding, Severity } from '../../shared/findings/finding';
import { applyFix, getAcceptance } from '../state/findings';
import { useApp, useEvaluation, useEvaluationFault, usePlan, useView } from '../state/hooks';
import { isSameFeature } from '../state/view';
import { Button } from '../ui/button';
import { SEVERITY_WORDS, SeverityMark } from '../ui/icon';

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
        <details className="accepted">
          <summary>{accepted.length} accepted</summary>
          <ul className="plain-list">
            {accepted.map((finding) => (
              <FindingCard key={finding.key} finding={finding} />
            ))}
          </ul>
        </details>
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

function FindingCard({ finding }: { finding: Finding }) {
  const { documents, dialogs, view, start } = useApp();
  const plan = usePlan();
  const pointed = useView((state) => state.pointedAt);
  const isPointed = finding.features.some((feature) => pointed.some((other) => isSameFeature(feature, other)));
  const point = (): void => view.pointAt(finding.features);
  const leave = (): void => view.pointAt([]);
  const acceptance = plan.accepted.find((entry) => entry.code === finding.key);
  const accept = async (): Promise<void> => {
    const by = await dialogs.ask('acceptFinding', { sentence: finding.sentence });
    if (by === null) return;
    documents.edit('accept a finding', (before) => getAcceptance(before, finding, by, start.today));
  };
  return (
    <li
      className={`finding is-${finding.severity}${isPointed ? ' is-pointed' : ''}`}
      data-finding={finding.code}
      onPointerEnter={point}
      onPointerLeave={leave}
      onFocus={point}
      onBlur={leave}
    >
      <p className="finding-sentence">
        <span className="visually-hidden">{SEVERITY_WORDS[finding.severity].one}: </span>
        {finding.sentence}
      </p>
      {finding.detail !== '' && <p className="finding-detail">{finding.detail}</p>}
      {finding.accepted && acceptance !== undefined && (
        <p className="finding-detail">
          accepted by {acceptance.by}, {acceptance.date}
        </p>
      )}
      <div className="finding-buttons">
        {!finding.accepted &&
          finding.fixes.map((fix) => (
            <Button
              key={fix.label}
              look="quiet"
              className="fix-button"
              onPress={() =>
                documents.edit(fix.label.charAt(0).toLowerCase() + fix.label.slice(1), (before) =>
                  applyFix(before, fix),
                )
              }
            >
              {fix.label}
            </Button>
          ))}
        {finding.features.length > 0 && (
          <Button
            look="quiet"
            className="small-button"
            onPress={() => {
              view.show('bench');
              view.select(finding.features);
            }}
          >
            Show
          </Button>
        )}
        {!finding.accepted && finding.severity === 'check' && (
          <Button look="quiet" className="small-button" onPress={() => void accept()}>
            Accept…
          </Button>
        )}
        {finding.accepted && (
          <Button
            look="quiet"
            className="small-button"
            onPress={() =>
              documents.edit('take back an acceptance', (before) => ({
                ...before,
                accepted: before.accepted.filter((entry) => entry.code !== finding.key),
              }))
            }
          >
            Take back
          </Button>
        )}
      </div>
    </li>
  );
}
