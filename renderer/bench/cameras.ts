import type { Bounds } from '../../shared/drawing/sinks/bounds';
import { type Camera, centreOn, getFitScale, type Size } from './camera';
import type { Arrangement } from './compute-fit';
import type { PaneName } from './panes';

/** The view beside each that shares its scale and one of its edges. */
const PARTNERS: Readonly<Record<PaneName, { readonly pane: PaneName; readonly edge: 'left' | 'top' }>> = {
  elevation: { pane: 'plan', edge: 'left' },
  plan: { pane: 'elevation', edge: 'left' },
  section: { pane: 'stack', edge: 'top' },
  stack: { pane: 'section', edge: 'top' },
};

/** Looks at one view differently; its partner follows in scale and along the edge they share. */
export function setCamera(arrangement: Arrangement, pane: PaneName, camera: Camera): Arrangement {
  const { pane: partner, edge } = PARTNERS[pane];
  const followed = follow(arrangement.cameras[partner], arrangement.panes[partner], camera, edge);
  return { ...arrangement, cameras: { ...arrangement.cameras, [pane]: camera, [partner]: followed } };
}

function follow(partner: Camera, size: Size, camera: Camera, edge: 'left' | 'top'): Camera {
  const { pxPerMm } = camera;
  if (edge === 'left') {
    const middle = partner.top - size.height / 2 / partner.pxPerMm;
    return { pxPerMm, left: camera.left, top: middle + size.height / 2 / pxPerMm };
  }
  const middle = partner.left + size.width / 2 / partner.pxPerMm;
  return { pxPerMm, top: camera.top, left: middle - size.width / 2 / pxPerMm };
}

const ZOOM_MARGIN_PX = 48;

/** Looks at some bounds as large as they go into the pane. */
export function zoomToBounds(arrangement: Arrangement, pane: PaneName, bounds: Bounds): Arrangement {
  const size = arrangement.panes[pane];
  return setCamera(arrangement, pane, centreOn(bounds, size, getFitScale(bounds, size, ZOOM_MARGIN_PX)));
}
