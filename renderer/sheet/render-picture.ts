import type { View } from '../../shared/drawing/marks';
import { drawView, getPictureSize, PICTURE_PX_PER_MM } from './draw-view';

/**
 * A view as a PNG picture.
 *
 * @returns its bytes as base64
 * @throws Error when the browser has no memory for it
 */
export async function renderPicture(view: View): Promise<string> {
  await document.fonts.ready;
  const canvas = document.createElement('canvas');
  Object.assign(canvas, getPictureSize(view, PICTURE_PX_PER_MM));
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('The picture cannot be drawn here.');
  drawView(context, view, PICTURE_PX_PER_MM);
  const [, base64 = ''] = canvas.toDataURL('image/png').split(',');
  return base64;
}
