import { useState } from 'react';
import type { Severity } from '../../shared/findings/finding';
import type { Outline, OutlineRemark } from '../../shared/outline/outline';
import type { OutlineDrawing } from '../../shared/outline/outline-drawing';
import type { Point } from '../../shared/outline/point';
import { Button } from '../ui/button';
import { SeverityMark } from '../ui/icon';

const MARKS: Record<OutlineRemark['severity'], Severity> = { block: 'stop', look: 'check', note: 'note' };

/** What was closed, removed, skipped and left out, and all that was in the file. */
export function OutlineReport(props: {
  drawing: OutlineDrawing;
  outline: Outline;
  partRemarks: readonly string[];
  /** Shows a place close to, or the whole for null. */
  onShow: (place: Point | null) => void;
}) {
  const { drawing, outline, partRemarks, onShow } = props;
  const [shown, setShown] = useState<{ sentence: string; index: number } | null>(null);
  const told = [
    ...outline.remarks.map(({ severity, sentence, places }) => ({ severity: MARKS[severity], sentence, places })),
    ...[...partRemarks, ...drawing.remarks].map((sentence) => ({ severity: 'check' as const, sentence, places: [] })),
  ];
  /** Each press goes to the next place; after the last the whole is shown again. */
  const showNext = (sentence: string, places: readonly Point[]): void => {
    const index = shown?.sentence === sentence ? shown.index + 1 : 0;
    const place = places[index] ?? null;
    setShown(place === null ? null : { sentence, index });
    onShow(place);
  };
  const skipped = drawing.counts.filter((count) => count.skipped > 0);
  const read = drawing.counts.filter((count) => count.read > 0);
  return (
    <div className="outline-report">
      <ul className="plain-list" aria-label="What was found">
        {told.map(({ severity, sentence, places }) => (
          <li key={sentence} className="outline-remark">
            <SeverityMark severity={severity} />
            <span>{sentence}</span>
            {places.length > 0 && (
              <Button look="quiet" aria-label={`Show where: ${sentence}`} onPress={() => showNext(sentence, places)}>
                {getShowLabel(shown?.sentence === sentence ? shown.index : -1, places.length)}
              </Button>
            )}
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

function getShowLabel(index: number, count: number): string {
  if (index < 0) return 'Show';
  return index + 1 < count ? `Next (${index + 1} of ${count})` : 'Whole';
}
