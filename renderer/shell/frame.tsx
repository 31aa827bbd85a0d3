import { lazy, useEffect } from 'react';
import { TabPanel, Tabs } from 'react-aria-components';
import { useApp, useUnsaved, useView } from '../state/hooks';
import type { Tab } from '../state/view';
import { useResolvedTheme } from '../ui/use-resolved-theme';
import { BenchPage } from './bench-page';
import { DecisionStrip } from './decision-strip';
import { Guarded } from './guarded';
import { Notices } from './notices';
import { Questions } from './questions';
import { useShortcuts } from './shortcuts';
import { TopBar } from './top-bar';

// Only the Bench has to be there at once; the others come when they are first looked at.
const PartsView = lazy(async () => ({ default: (await import('../panels/parts-view')).PartsView }));
const OrderView = lazy(async () => ({ default: (await import('../order/order-view')).OrderView }));
const SheetView = lazy(async () => ({ default: (await import('../sheet/sheet-view')).SheetView }));
const ShopView = lazy(async () => ({ default: (await import('../shop/shop-view')).ShopView }));

/** The window: top bar, the view chosen, and the strip of figures that never leaves. */
export function Frame() {
  const { view } = useApp();
  const tab = useView((state) => state.tab);
  useShortcuts();
  useThemeAttribute();
  useLeaveWarning();
  return (
    <>
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
              <PartsView />
            </Guarded>
          </TabPanel>
          <TabPanel id="bench" className="page">
            <Guarded name="Bench">
              <BenchPage />
            </Guarded>
          </TabPanel>
          <TabPanel id="order" className="page">
            <Guarded name="Order">
              <OrderView />
            </Guarded>
          </TabPanel>
          <TabPanel id="sheet" className="page">
            <Guarded name="Sheet">
              <SheetView />
            </Guarded>
          </TabPanel>
          <TabPanel id="shop" className="page">
            <Guarded name="Shop">
              <ShopView />
            </Guarded>
          </TabPanel>
        </main>
        <Guarded name="The strip of figures">
          <DecisionStrip />
        </Guarded>
      </Tabs>
      <Notices />
      <Questions />
    </>
  );
}

function useThemeAttribute(): void {
  const theme = useView((state) => state.theme);
  const resolved = useResolvedTheme();
  useEffect(() => {
    document.documentElement.dataset.theme = theme === 'system' ? resolved : theme;
  }, [theme, resolved]);
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
