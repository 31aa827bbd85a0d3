import type { Host, StartInfo } from '../../shared/contract/host';
import type { Actions } from './actions';
import type { Dialogs } from './dialogs';
import type { Documents } from './documents';
import type { Evaluator } from './evaluator';
import type { Files } from './files';
import type { OrderSearch } from './order-search';
import type { View } from './view';

/** Everything the page works with. Made once when the host has answered; React reads it through hooks. */
export interface App {
  readonly start: StartInfo;
  readonly host: Host;
  readonly documents: Documents;
  readonly view: View;
  readonly dialogs: Dialogs;
  readonly files: Files;
  readonly actions: Actions<App>;
  readonly evaluator: Evaluator;
  readonly orderSearch: OrderSearch;
  readonly onMac: boolean;
}
