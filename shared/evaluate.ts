import type { EngineResults } from './engine/engine-results';
import type { Finding } from './findings/finding';

/** Everything there is to say of a plan. The Bench, the Sheet, the command line and the tests read this and nothing else. */
export interface Evaluation extends EngineResults {
  findings: Finding[];
}
