import { BarsToSaw } from './bars-to-saw';
import { GangTable } from './gang-table';
import { OrderInputs } from './order-inputs';
import { Purchase } from './purchase';
import { SectionsCompared } from './sections-compared';

/** What to buy, how to saw it, and what every other bar on offer would come to. */
export function OrderView() {
  return (
    <div className="order-page">
      <aside className="side-panel is-left" aria-label="What the order goes by">
        <header className="side-head">
          <h2>Goes by</h2>
        </header>
        <div className="side-body">
          <OrderInputs />
        </div>
      </aside>
      <div className="order-body">
        <Purchase />
        <SectionsCompared />
        <BarsToSaw />
        <GangTable />
      </div>
    </div>
  );
}
