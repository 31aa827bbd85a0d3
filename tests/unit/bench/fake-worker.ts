import type { EvaluateReply, EvaluateRequest, EvaluateWorker } from '../../../renderer/bench/live-evaluator';
import { EMPTY_EVALUATION } from '../../../renderer/state/evaluator';

/** A worker that answers, and breaks, when it is told to. */
export function buildWorker() {
  const asked: EvaluateRequest[] = [];
  let handle: (reply: EvaluateReply) => void = () => undefined;
  let handleBroken = (): void => undefined;
  const worker: EvaluateWorker = {
    postMessage: (request) => asked.push(request),
    onReply: (next) => {
      handle = next;
    },
    onBroken: (next) => {
      handleBroken = next;
    },
    terminate: () => undefined,
  };
  return {
    worker,
    asked,
    answer: (reply: EvaluateReply = { evaluation: EMPTY_EVALUATION }) => handle(reply),
    break: () => handleBroken(),
  };
}
