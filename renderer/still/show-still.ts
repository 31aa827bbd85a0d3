import type { StartInfo } from '../../shared/contract/host';
import { type BenchSubject, buildBenchView, getFirstSubject, getSetting } from '../bench/bench-model';
import type { Arranged } from '../bench/bench-store';
import { getScaleText } from '../bench/camera';
import { type Arrangement, computeArrangement } from '../bench/compute-fit';
import { drawPicture } from '../bench/draw/konva-sink';
import { buildPicture } from '../bench/draw/picture';
import { getHeadingHeight, isRoomEnough, PANES, type PaneName } from '../bench/panes';
import { areFacesLoaded, createPens, getDpr, loadFaces, type Pens, readRemPx, readRoom } from '../bench/pens';
import { readKeptView } from '../shell/kept-view';
import { getFirstPanels } from '../shell/open-panels';
import { applyTheme, resolveTheme } from '../ui/theme';
import { build, buildFrame, buildHeading, place } from './frame';

/**
 * Draws the Bench before there is anything to work it with: the same marks in the same places, while the page's own code
 * is still being fetched and read. That code then stands in its place, and takes over where the views lie.
 *
 * @param root where the page will be
 * @returns how the views are arranged; null when there is nothing to draw
 */
export function showStill(root: HTMLElement, { opened, shop, evaluation }: StartInfo): Arranged | null {
  if (evaluation === null || opened.plan.parts.length === 0) return null;
  const subject = getFirstSubject(opened.plan, evaluation, shop);
  const setting = getSetting(subject);
  if (setting === null) return null;
  const kept = readKeptView();
  const theme = resolveTheme(kept.theme ?? 'system');
  applyTheme(theme);
  const bench = build('section', 'bench');
  root.replaceChildren(buildFrame(bench, getFirstPanels(kept)));
  const remPx = readRemPx();
  const room = readRoom(bench);
  if (!isRoomEnough(room)) return null;
  const pens = createPens(theme, remPx, getDpr());
  const arrangement = computeArrangement(subject, room, remPx, pens.pxPerPaperMm);
  const panes = PANES.map((pane) => buildPane(pane, subject, arrangement, pens, getHeadingHeight(remPx)));
  const draw = (): void => {
    for (const pane of panes) pane.draw();
  };
  bench.append(...panes.map((pane) => pane.element));
  const isLettered = areFacesLoaded();
  draw();
  if (!isLettered) void loadFaces().then(draw);
  return { arrangement, room, remPx, fits: 0, templateId: setting.scene.blank.templateId };
}

interface Pane {
  readonly element: HTMLElement;
  draw(): void;
}

function buildPane(
  pane: PaneName,
  subject: BenchSubject,
  { panes, cameras, look }: Arrangement,
  pens: Pens,
  heading: number,
): Pane {
  const rect = panes[pane];
  const camera = cameras[pane];
  const canvas = build('canvas', '');
  canvas.width = rect.width * pens.dpr;
  canvas.height = rect.height * pens.dpr;
  const element = build(
    'section',
    `bench-pane is-${pane}`,
    place(buildHeading(pane, getScaleText(camera.pxPerMm)), { ...rect, top: rect.top - heading, height: heading }),
    place(build('div', 'bench-surface', place(canvas, { ...rect, left: 0, top: 0 })), rect),
  );
  const picture = buildPicture(buildBenchView(pane, subject, look, pens.pxPerPaperMm / camera.pxPerMm));
  return {
    element,
    draw() {
      const context = canvas.getContext('2d');
      if (context === null) return;
      context.setTransform(pens.dpr, 0, 0, pens.dpr, 0, 0);
      context.clearRect(0, 0, rect.width, rect.height);
      drawPicture(context, picture, { camera, pane: rect, ...pens, shift: null });
    },
  };
}
