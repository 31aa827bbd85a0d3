import Konva from 'konva';

// As many shapes as the Bench shows, on a stage of its size, all moved with the pointer: what a drag is measured against.
const { searchParams } = new URL(window.location.href);
const read = (name: string, usual: number): number => Number(searchParams.get(name) ?? usual);
const width = read('width', 800);
const height = read('height', 600);

const stage = new Konva.Stage({ container: 'stage', width, height });
const layer = new Konva.Layer({ listening: false });
stage.add(layer);
const group = new Konva.Group();
layer.add(group);
const count = read('shapes', 400);
const columns = Math.ceil(Math.sqrt(count));
for (let index = 0; index < count; index += 1) {
  group.add(
    new Konva.Rect({
      x: ((index % columns) / columns) * width,
      y: (Math.floor(index / columns) / columns) * height,
      width: (width / columns) * 0.8,
      height: (height / columns) * 0.8,
      fill: '#cdb47e',
      stroke: '#1b222c',
      strokeWidth: 1,
      perfectDrawEnabled: false,
    }),
  );
}
layer.draw();

let from: number | null = null;
const container = stage.container();
container.addEventListener('pointerdown', (event) => {
  from = event.clientX - group.x();
});
container.addEventListener('pointermove', (event) => {
  if (from === null) return;
  group.x(event.clientX - from);
  layer.batchDraw();
});
window.addEventListener('pointerup', () => {
  from = null;
});
