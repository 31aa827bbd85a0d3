import { useRef } from 'react';
import { Header, Keyboard, Menu, MenuItem, MenuSection, Popover, Text } from 'react-aria-components';
import { formatShortcut } from '../state/actions';
import { useApp } from '../state/hooks';
import { BENCH_ACTIONS } from './bench-actions';
import { getActionContext } from './bench-keys';
import { showEverything } from './bench-store';
import type { BenchFeature } from './features';
import type { PaneName, Rect } from './panes';
import { useBench, useBenchSession } from './use-bench';

/** What can be done to the thing under the pointer, or to the Bench where there is none. */
export function BenchMenu({
  panes,
  features,
}: {
  panes: Readonly<Record<PaneName, Rect>>;
  features: readonly BenchFeature[];
}) {
  const app = useApp();
  const session = useBenchSession();
  const menu = useBench((state) => state.menu);
  const anchor = useRef<HTMLSpanElement>(null);
  const rect = menu === null ? null : panes[menu.pane];
  const close = (): void => session.store.setState({ menu: null });
  const context = menu === null ? null : getActionContext(app, session);
  const offered = context === null ? [] : BENCH_ACTIONS.filter((action) => action.isOffered(context));
  const named = features.find(
    ({ feature }) => feature.kind === menu?.feature?.kind && feature.id === menu?.feature?.id,
  );
  return (
    <>
      <span
        ref={anchor}
        className="bench-menu-anchor"
        style={menu === null || rect === null ? {} : { left: rect.left + menu.at.x, top: rect.top + menu.at.y }}
      />
      <Popover
        className="popover menu-popover"
        triggerRef={anchor}
        isOpen={menu !== null}
        onOpenChange={(isOpen) => {
          if (!isOpen) close();
        }}
        placement="bottom start"
        offset={2}
      >
        <Menu
          className="menu"
          aria-label={named?.name ?? 'Bench'}
          onAction={(key) => {
            close();
            if (key === 'bench.fit') showEverything(session.store);
            else if (context !== null) offered.find((action) => action.id === key)?.perform(context);
          }}
        >
          <MenuSection>
            {named !== undefined && (
              <Header className="menu-header">
                {named.name}
                {named.says !== '' && <span className="bench-menu-says">{named.says}</span>}
              </Header>
            )}
            {menu?.feature != null &&
              offered.map((action) => (
                <MenuItem
                  key={action.id}
                  id={action.id}
                  className="menu-item"
                  textValue={action.label(context as never)}
                >
                  <Text slot="label">{context === null ? '' : action.label(context)}</Text>
                  {action.key !== '' && <Keyboard>{formatShortcut(action.key, app.onMac)}</Keyboard>}
                </MenuItem>
              ))}
            <MenuItem id="bench.fit" className="menu-item" textValue="Show everything">
              <Text slot="label">Show everything</Text>
              <Keyboard>F</Keyboard>
            </MenuItem>
          </MenuSection>
        </Menu>
      </Popover>
    </>
  );
}
