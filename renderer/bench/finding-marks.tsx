import { memo, useMemo } from 'react';
import { Button, Tooltip, TooltipTrigger } from 'react-aria-components';
import type { View } from '../../shared/drawing/marks';
import { useApp } from '../state/hooks';
import { SEVERITY_WORDS, SeverityMark } from '../ui/icon';
import type { Camera } from './camera';
import type { FindingAnchor } from './finding-anchors';
import type { PaneName, Rect } from './panes';
import { type PlacedMark, placeMarks } from './place-marks';
import { useBench } from './use-bench';

export interface FindingMarksProps {
  readonly pane: PaneName;
  readonly view: View;
  readonly anchors: readonly FindingAnchor[];
  readonly rect: Rect;
  readonly camera: Camera;
}

/** Findings where they bite: shape first, the sentence on hover or focus. */
export const FindingMarks = memo(function FindingMarks({ pane, view, anchors, rect, camera }: FindingMarksProps) {
  const isDragging = useBench((state) => state.drag !== null);
  const remPx = useBench((state) => state.remPx);
  const placed = useMemo(() => {
    const own = anchors.filter((anchor) => anchor.pane === pane);
    return placeMarks(own, { view, camera, pane: rect, remPx });
  }, [pane, view, anchors, rect, camera, remPx]);
  return (
    <div className={`bench-findings${isDragging ? ' is-quiet' : ''}`}>
      {placed.map((mark) => (
        <FindingMark key={mark.anchor.findings[0]?.key} {...mark} />
      ))}
    </div>
  );
});

function FindingMark({ anchor, at }: PlacedMark) {
  const { view } = useApp();
  const { findings, severity } = anchor;
  const features = findings.flatMap((finding) => finding.features);
  const sentences = findings.map((finding) => finding.sentence);
  return (
    <TooltipTrigger delay={150} closeDelay={80}>
      <Button
        className={`bench-finding bench-live is-${severity}`}
        style={{ left: at.x, top: at.y }}
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
