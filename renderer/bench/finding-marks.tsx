import { memo } from 'react';
import { Button, Tooltip, TooltipTrigger } from 'react-aria-components';
import { useApp } from '../state/hooks';
import { SEVERITY_WORDS, SeverityMark } from '../ui/icon';
import { type Camera, toScreen } from './camera';
import type { FindingAnchor } from './finding-anchors';
import type { PaneName, Rect } from './panes';
import { useBench } from './use-bench';

export interface FindingMarksProps {
  readonly pane: PaneName;
  readonly anchors: readonly FindingAnchor[];
  readonly rect: Rect;
  readonly camera: Camera;
}

const MARK_PX = 9;
/** Off the corner of what it is about, which stays in sight. */
const BESIDE_PX = 8;

/** Findings where they bite: shape first, the sentence on hover or focus. */
export const FindingMarks = memo(function FindingMarks({ pane, anchors, rect, camera }: FindingMarksProps) {
  const isDragging = useBench((state) => state.drag !== null);
  return (
    <div className={`bench-findings${isDragging ? ' is-quiet' : ''}`}>
      {anchors
        .filter((anchor) => anchor.pane === pane)
        .map((anchor) => (
          <FindingMark key={anchor.findings[0]?.key} anchor={anchor} rect={rect} camera={camera} />
        ))}
    </div>
  );
});

function FindingMark({ anchor, rect, camera }: { anchor: FindingAnchor; rect: Rect; camera: Camera }) {
  const { view } = useApp();
  const { findings, severity } = anchor;
  const at = toScreen(camera, anchor);
  const isOutside = at.x < -2 || at.y < -2 || at.x > rect.width + 2 || at.y > rect.height + 2;
  if (isOutside) return null;
  const features = findings.flatMap((finding) => finding.features);
  const sentences = findings.map((finding) => finding.sentence);
  return (
    <TooltipTrigger delay={150} closeDelay={80}>
      <Button
        className={`bench-finding bench-live is-${severity}`}
        style={{
          left: Math.max(MARK_PX, Math.min(at.x + BESIDE_PX, rect.width - MARK_PX - 2)),
          top: Math.max(MARK_PX, Math.min(at.y - BESIDE_PX, rect.height - MARK_PX - 2)),
        }}
        aria-label={`${findings.length > 1 ? `${findings.length} findings, ` : ''}${SEVERITY_WORDS[severity].one}: ${sentences.join(' ')}`}
        onHoverStart={() => view.pointAt(features)}
        onHoverEnd={() => view.pointAt([])}
        onFocus={() => view.pointAt(features)}
        onBlur={() => view.pointAt([])}
        onPress={() => {
          view.store.setState({ rightOpen: true });
          view.select([anchor.feature]);
        }}
      >
        <SeverityMark severity={severity} />
        {findings.length > 1 && (
          <span className="bench-finding-count" aria-hidden="true">
            {findings.length}
          </span>
        )}
      </Button>
      <Tooltip className="tooltip bench-finding-tip" offset={6}>
        {findings.map((finding) => (
          <p key={finding.key}>
            <SeverityMark severity={finding.severity} /> {finding.sentence}
          </p>
        ))}
      </Tooltip>
    </TooltipTrigger>
  );
}
