import type { Program } from './planner';
import type { Runtime } from './runtime';

export function buildPackage(_runtime: Runtime): Program {
  throw new Error('not yet');
}
