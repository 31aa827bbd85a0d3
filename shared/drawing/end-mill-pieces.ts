import type { ReachResult } from '../engine/results';
import type { EndMill } from '../model/shop';
import { type CutterPiece, getEntry, HOLDER_SHOWN, type Scene } from './scene';

/** The end mill that goes deepest, in its holder, as it stands at its last pass. */
export interface EndMillPass {
  pieces: CutterPiece[];
  cutName: string;
  reach: ReachResult;
}

/** The pass of an end mill whose tip goes lowest, and of those the longest; null when no end mill works on the plan. */
export function getDeepestEndMillPass(scene: Scene): EndMillPass | null {
  let deepest: { reach: ReachResult; tool: EndMill } | null = null;
  for (const reach of scene.evaluation.reach) {
    const tool = getEntry(scene.plan.library.tools, scene.shop.tools, reach.toolId);
    if (tool?.kind !== 'endMill') continue;
    const isDeeper = deepest === null || reach.tipZ < deepest.reach.tipZ - 1e-9;
    const isLonger =
      deepest !== null && Math.abs(reach.tipZ - deepest.reach.tipZ) <= 1e-9 && reach.noseZ > deepest.reach.noseZ;
    if (isDeeper || isLonger) deepest = { reach, tool };
  }
  if (deepest === null) return null;
  const { reach, tool } = deepest;
  return {
    pieces: getPieces(scene, reach, tool),
    cutName: scene.plan.cuts.find(({ id }) => id === reach.cutId)?.name ?? '',
    reach,
  };
}

/** Flutes, neck, shank and the holder's nose and body, from the tip up. */
function getPieces(scene: Scene, reach: ReachResult, tool: EndMill): CutterPiece[] {
  const { tipZ, noseZ } = reach;
  const own = { layer: 'cutter', id: tool.id } as const;
  const fluteTop = Math.min(noseZ, tipZ + tool.fluteLength);
  const neckTop = tool.neck === null ? fluteTop : Math.min(noseZ, fluteTop + tool.neck.length);
  const pieces: CutterPiece[] = [];
  if (tool.neck !== null && neckTop > fluteTop) {
    pieces.push({ ...own, part: 'neck', diameter: tool.neck.diameter, bottom: fluteTop, top: neckTop });
  }
  if (noseZ > neckTop) {
    pieces.push({ ...own, part: 'shank', diameter: tool.shankDiameter, bottom: neckTop, top: noseZ });
  }
  pieces.push({ ...own, part: 'head', diameter: tool.diameter, bottom: tipZ, top: fluteTop });
  const holder = getEntry(scene.plan.library.holders, scene.shop.holders, reach.holderId);
  if (holder !== null) {
    const top = noseZ + Math.min(holder.noseLength, HOLDER_SHOWN);
    pieces.push({ part: 'holder', layer: 'holder', id: holder.id, diameter: holder.noseDiameter, bottom: noseZ, top });
  }
  return pieces;
}
