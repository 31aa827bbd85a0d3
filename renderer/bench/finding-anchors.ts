import type { View } from '../../shared/drawing/marks';
import type { FeatureRef, Finding, Severity } from '../../shared/findings/finding';
import type { Setting } from './gestures/mover';
import { PANES, type PaneName } from './panes';
import { getFeatureBounds } from './pick';

/** Findings that bite at one place of a view. */
export interface FindingAnchor {
  readonly pane: PaneName;
  /** mm of the view. */
  readonly x: number;
  readonly y: number;
  readonly severity: Severity;
  readonly findings: readonly Finding[];
  readonly feature: FeatureRef;
}

/** The view that shows a thing best comes first. */
const BEST_PANES: Readonly<Record<FeatureRef['kind'], readonly PaneName[]>> = {
  bar: ['elevation'],
  blank: ['elevation'],
  part: ['elevation'],
  vise: ['elevation'],
  table: ['elevation'],
  tab: ['elevation'],
  jaw: ['section', 'elevation'],
  seat: ['section', 'elevation'],
  cutter: ['section', 'elevation'],
  cut: ['section', 'elevation'],
  rib: ['section', 'elevation'],
  stack: ['stack'],
  order: [],
  field: [],
};

const RANKS: Readonly<Record<Severity, number>> = { stop: 0, check: 1, note: 2 };

/** Each finding at the first thing it points at that is drawn; several at one thing share a mark. */
export function getFindingAnchors(
  findings: readonly Finding[],
  views: Readonly<Record<PaneName, View>>,
  setting: Setting,
): FindingAnchor[] {
  const anchors = new Map<string, FindingAnchor>();
  for (const finding of findings) {
    if (finding.accepted) continue;
    const found = findAnchor(finding, views, setting);
    if (found === null) continue;
    const key = `${found.pane} ${found.x.toFixed(3)} ${found.y.toFixed(3)}`;
    const known = anchors.get(key);
    anchors.set(key, known === undefined ? found : joinAnchors(known, finding));
  }
  return [...anchors.values()].toSorted((a, b) => PANES.indexOf(a.pane) - PANES.indexOf(b.pane) || a.x - b.x);
}

function joinAnchors(anchor: FindingAnchor, finding: Finding): FindingAnchor {
  const findings = [...anchor.findings, finding].toSorted((a, b) => RANKS[a.severity] - RANKS[b.severity]);
  return { ...anchor, findings, severity: findings[0]?.severity ?? anchor.severity };
}

/** What is marked where the thing itself may not be drawn: the vises for the table, the part for a cut and for its fields. */
function getStandIns(feature: FeatureRef, { scene }: Setting): FeatureRef[] {
  switch (feature.kind) {
    case 'table':
      return [{ kind: 'vise', id: '0' }];
    case 'cut':
      return [{ kind: 'part', id: scene.blank.stack.governingPartId }];
    case 'field': {
      const index = /^parts\.(\d+)/u.exec(feature.id)?.[1];
      const part = index === undefined ? undefined : scene.plan.parts[Number(index)];
      return part === undefined ? [] : [{ kind: 'part', id: part.id }];
    }
    default:
      return [];
  }
}

function findAnchor(finding: Finding, views: Readonly<Record<PaneName, View>>, setting: Setting): FindingAnchor | null {
  for (const feature of finding.features.flatMap((pointed) => [pointed, ...getStandIns(pointed, setting)])) {
    for (const pane of BEST_PANES[feature.kind]) {
      const bounds = getFeatureBounds(views[pane], setting.scene, feature);
      if (bounds === null) continue;
      const { severity } = finding;
      // A vise stands under the bar: its mark keeps below the parts.
      const y = feature.kind === 'vise' ? (bounds.top + bounds.bottom) / 2 : bounds.top;
      return { pane, x: bounds.right, y, severity, findings: [finding], feature };
    }
  }
  return null;
}
