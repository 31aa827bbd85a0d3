import { useRef } from 'react';
import { Header, Keyboard, Menu, MenuItem, MenuSection, Popover, Text } from 'react-aria-components';
import type { FeatureRef } from '../../shared/findings/finding';
import { formatShortcut } from '../state/actions';
import type { App } from '../state/app';
import { useApp } from '../state/hooks';
import { BENCH_ACTIONS, getAddActions } from './bench-actions';
import { getActionContext } from './bench-keys';
import type { BenchSession } from './bench-session';
import { showEverything } from './bench-store';
import type { BenchFeature } from './features';
import type { PaneName, Rect } from './panes';
import { useBench, useBenchSession } from './use-bench';

interface OfferedAction {
  readonly id: string;
  readonly label: string;
  readonly key: string;
  readonly perform: () => void;
}

/** What can be done to a thing, or where there is none to the Bench. */
function getOffered(app: App, session: BenchSession, feature: FeatureRef | null): OfferedAction[] {
  const selected = getActionContext(app, session);
  if (selected === null) return [];
  const context = feature === null ? { ...selected, selection: [], first: null } : selected;
  return [...BENCH_ACTIONS, ...getAddActions(context)]
    .filter((action) => action.isOffered(context))
    .map((action) => ({
      id: action.id,
      label: action.label(context),
      key: action.key,
      perform: () => action.perform(context),
    }));
}

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
  const offered = menu === null ? [] : getOffered(app, session, menu.feature);
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
            else if (key === 'bench.saveView') void app.dialogs.ask('saveView', {});
            else offered.find((action) => action.id === key)?.perform();
          }}
        >
          <MenuSection>
            {named !== undefined && (
              <Header className="menu-header">
                {named.name}
                {named.says !== '' && <span className="bench-menu-says">{named.says}</span>}
              </Header>
            )}
            {offered.map(({ id, label, key }) => (
              <MenuItem key={id} id={id} className="menu-item" textValue={label}>
                <Text slot="label">{label}</Text>
                {key !== '' && <Keyboard>{formatShortcut(key, app.onMac)}</Keyboard>}
              </MenuItem>
            ))}
            <MenuItem id="bench.fit" className="menu-item" textValue="Show everything">
              <Text slot="label">Show everything</Text>
              <Keyboard>F</Keyboard>
            </MenuItem>
            <MenuItem id="bench.saveView" className="menu-item" textValue="Save one view…">
              <Text slot="label">Save one view…</Text>
            </MenuItem>
          </MenuSection>
        </Menu>
      </Popover>
    </>
  );
}
