import type { HostCalls, HostVerb } from '../../shared/contract/host';
import type { HostDialogs } from './host-dialogs';
import type { HostSession } from './host-session';
import type { PathTokens } from './path-tokens';
import type { Services } from './services';

/** What answers each call of the contract, its request already read by its schema. */
export type Handlers = { [V in HostVerb]: (request: HostCalls[V]['request']) => Promise<HostCalls[V]['reply']> };

/** What the handlers work with. */
export interface HostParts {
  services: Services;
  dialogs: HostDialogs;
  tokens: PathTokens;
  session: HostSession;
}
