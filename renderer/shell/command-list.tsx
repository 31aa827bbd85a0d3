import { Autocomplete, Input, ListBox, ListBoxItem, TextField, useFilter } from 'react-aria-components';
import { useStore } from 'zustand';
import { formatShortcut, getActionLabel, isActionEnabled } from '../state/actions';
import { useApp } from '../state/hooks';
import { Dialog } from '../ui/dialog';

/** Every action by name: type a few letters, Enter does it. */
export function CommandList({ onClose }: { onClose: () => void }) {
  const app = useApp();
  const actions = useStore(app.actions.store, (state) => state.all);
  const { contains } = useFilter({ sensitivity: 'base' });
  const offered = actions.filter((action) => action.id !== 'help.commands' && isActionEnabled(action, app));
  return (
    <Dialog title="Commands" onClose={onClose} size="medium">
      <Autocomplete filter={contains}>
        <TextField aria-label="Find a command" autoFocus className="search-field">
          <Input
            className="input"
            role="combobox"
            aria-expanded="true"
            aria-haspopup="listbox"
            placeholder="What would you like to do?"
          />
        </TextField>
        <ListBox
          className="menu command-menu"
          aria-label="Commands"
          renderEmptyState={() => <p className="empty">No command of that name.</p>}
        >
          {offered.map((action) => {
            const label = getActionLabel(action, app);
            const [shortcut] = action.shortcuts ?? [];
            return (
              <ListBoxItem
                key={action.id}
                id={action.id}
                className="menu-item"
                textValue={`${label} ${action.group}`}
                onAction={() => {
                  onClose();
                  action.perform(app);
                }}
              >
                <span className="list-label">{label}</span>
                <span className="list-about">{action.group}</span>
                {shortcut !== undefined && (
                  <span className="keys" aria-hidden="true">
                    {formatShortcut(shortcut, app.onMac)}
                  </span>
                )}
              </ListBoxItem>
            );
          })}
        </ListBox>
      </Autocomplete>
    </Dialog>
  );
}
