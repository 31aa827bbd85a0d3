import { useEffect } from 'react';
import { TabPanel, Tabs } from 'react-aria-components';
import { useApp, useUnsaved, useView } from '../state/hooks';
import type { Tab } from '../state/view';
import { applyTheme } from '../ui/theme';
import { useResolvedTheme } from '../ui/use-resolved-theme';
import { BenchPage } from './bench-page';
import { DecisionStrip } from './decision-strip';
import { firstPicture, useFirstPicture } from './first-picture';
import { Guarded } from './guarded';
import { createLater, LaterView } from './later-view';
import { useShortcuts } from './shortcuts';
import { TopBar } from './top-bar';

// Only the Bench has to be there at once; the others are fetched once it stands.
const PARTS = createLater(async () => (await import('../panels/parts-view')).PartsView);
const ORDER = createLater(async () => (await import('../order/order-view')).OrderView);
const SHEET = createLater(async () => (await import('../sheet/sheet-view')).SheetView);
const SHOP = createLater(async () => (await import('../shop/shop-view')).ShopView);

/** The window: top bar, the view chosen, and the strip of figures that never leaves. */
export function Frame() {
  const { view } = useApp();
  const tab = useView((state) => state.tab);
  useShortcuts();
  useThemeAttribute();
  useLeaveWarning();
  useFirstPicture();
  useOtherViews();
  return (
    <Tabs
      className="frame"
      selectedKey={tab}
      onSelectionChange={(key) => view.show(key as Tab)}
      keyboardActivation="manual"
    >
      <TopBar />
      <main className="pages">
        <TabPanel id="parts" className="page">
          <Guarded name="Parts">
            <LaterView later={PARTS} />
          </Guarded>
        </TabPanel>
        <TabPanel id="bench" className="page">
          <Guarded name="Bench">
            <BenchPage />
          </Guarded>
        </TabPanel>
        <TabPanel id="order" className="page">
          <Guarded name="Order">
            <LaterView later={ORDER} />
          </Guarded>
        </TabPanel>
        <TabPanel id="sheet" className="page">
          <Guarded name="Sheet">
            <LaterView later={SHEET} />
          </Guarded>
        </TabPanel>
        <TabPanel id="shop" className="page">
          <Guarded name="Shop">
            <LaterView later={SHOP} />
          </Guarded>
        </TabPanel>
      </main>
      <Guarded name="The strip of figures">
        <DecisionStrip />
      </Guarded>
    </Tabs>
  );
}

function useThemeAttribute(): void {
  const resolved = useResolvedTheme();
  useEffect(() => {
    applyTheme(resolved);
  }, [resolved]);
}

/** A browser tab can be closed by accident; the desktop window asks through its host instead. */
function useLeaveWarning(): void {
  const { start } = useApp();
  const unsaved = useUnsaved();
  useEffect(() => {
    if (!unsaved || start.hostKind !== 'local') return;
    const warn = (event: BeforeUnloadEvent): void => event.preventDefault();
    window.addEventListener('beforeunload', warn);
    return () => window.removeEventListener('beforeunload', warn);
  }, [unsaved, start.hostKind]);
}

/** Fetches the other views while nobody waits for them, so that they are there even if the host should end. */
function useOtherViews(): void {
  useEffect(() => {
    void firstPicture.then(() => {
      // One that cannot be fetched is asked for again, and told of, when it is looked at.
      for (const later of [PARTS, ORDER, SHEET, SHOP]) later.fetch().catch(() => undefined);
    });
  }, []);
}
