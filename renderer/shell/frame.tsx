import { useEffect } from 'react';
import { TabPanel, Tabs } from 'react-aria-components';
import { OrderView } from '../order/order-view';
import { PartsView } from '../panels/parts-view';
import { SheetView } from '../sheet/sheet-view';
import { ShopView } from '../shop/shop-view';
import { useApp, useUnsaved, useView } from '../state/hooks';
import type { Tab } from '../state/view';
import { useResolvedTheme } from '../ui/use-resolved-theme';
import { BenchPage } from './bench-page';
import { DecisionStrip } from './decision-strip';
import { Notices } from './notices';
import { Questions } from './questions';
import { useShortcuts } from './shortcuts';
import { TopBar } from './top-bar';

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
            <PartsView />
          </TabPanel>
          <TabPanel id="bench" className="page">
            <BenchPage />
          </TabPanel>
          <TabPanel id="order" className="page">
            <OrderView />
          </TabPanel>
          <TabPanel id="sheet" className="page">
            <SheetView />
          </TabPanel>
          <TabPanel id="shop" className="page">
            <ShopView />
          </TabPanel>
        </main>
        <DecisionStrip />
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
