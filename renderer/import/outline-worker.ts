/// <reference lib="webworker" />
import { computeDrawingSize, computeOutline } from '../../shared/outline/compute-outline';
import type { OutlineDrawing } from '../../shared/outline/outline-drawing';
import type { OutlineAsk, OutlineReply } from '../state/outline-work';

let drawing: OutlineDrawing | null = null;

// Beside the page: a drawing of thousands of lines may take a second, and a hostile one longer. It is ended from outside.
self.onmessage = ({ data }: MessageEvent<OutlineAsk>): void => {
  try {
    const reply = answer(data);
    if (reply !== null) self.postMessage(reply);
  } catch {
    self.postMessage({ kind: 'failed' } satisfies OutlineReply);
  }
};

function answer(ask: OutlineAsk): OutlineReply | null {
  if (ask.kind === 'drawing') {
    ({ drawing } = ask);
    return { kind: 'size', size: computeDrawingSize(drawing) };
  }
  return drawing === null
    ? null
    : { kind: 'outline', outline: computeOutline(drawing, ask.options), options: ask.options };
}
