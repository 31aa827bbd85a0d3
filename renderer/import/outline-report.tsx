import type { Severity } from '../../shared/findings/finding';
import type { Outline, OutlineRemark } from '../../shared/outline/outline';
import type { OutlineDrawing } from '../../shared/outline/outline-drawing';
import { SeverityMark } from '../ui/icon';

const MARKS: Record<OutlineRemark['severity'], Severity> = { block: 'stop', look: 'check', note: 'note' };

/** What was closed, removed, skipped and left out, and all that was in the file. */
export function OutlineReport(props: { drawing: OutlineDrawing; outline: Outline; partRemarks: readonly string[] }) {
  const { drawing, outline, partRemarks } = props;
  const told = [
    ...outline.remarks.map(({ severity, sentence }) => ({ severity: MARKS[severity], sentence })),
    ...[...partRemarks, ...drawing.remarks].map((sentence) => ({ severity: 'check' as const, sentence })),
  ];
  const skipped = drawing.counts.filter((count) => count.skipped > 0);
  const read = drawing.counts.filter((count) => count.read > 0);
  return (
    <div className="outline-report">
      <ul className="plain-list" aria-label="What was found">
        {told.map(({ severity, sentence }) => (
          <li key={sentence} className="outline-remark">
            <SeverityMark severity={severity} /> {sentence}
          </li>
        ))}
      </ul>
      <p>Read: {read.length === 0 ? 'nothing' : read.map((count) => `${count.read} ${count.type}`).join(', ')}.</p>
      {skipped.length > 0 && (
        <ul className="plain-list" aria-label="What was skipped">
          {skipped.map((count) => (
            <li key={count.type}>
              Skipped {count.skipped} {count.type}: {count.reasons.join('; ')}.
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
