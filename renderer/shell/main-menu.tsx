import { Button, Menu, MenuItem, MenuTrigger, Popover, Separator, SubmenuTrigger } from 'react-aria-components';
import { formatShortcut, getActionLabel, isActionEnabled } from '../state/actions';
import { useApp, useFiles, useHistory } from '../state/hooks';
import { Icon } from '../ui/icon';

const FILE_IDS = ['file.new', 'file.open'] as const;
const SAVE_IDS = ['file.save', 'file.saveAs', 'file.print', 'file.saveView'] as const;
const EDIT_IDS = ['edit.undo', 'edit.redo'] as const;
const OTHER_IDS = ['view.units', 'view.workings', 'view.compare', 'view.theme', 'help.commands', 'help.about'] as const;

export function MainMenu() {
  const { start, files } = useApp();
  const { recents } = useFiles();
  useHistory();
  return (
    <MenuTrigger>
      <Button className="icon-button menu-button" aria-label="Menu">
        <Icon name="menu" />
      </Button>
      <Popover className="popover">
        <Menu className="menu">
          {FILE_IDS.map((id) => (
            <ActionItem key={id} id={id} />
          ))}
          <NamedSubmenu label="Open recent" isDisabled={recents.length === 0}>
            {recents.map((file) => (
              <MenuItem
                key={file.token}
                className="menu-item"
                textValue={file.name}
                onAction={() => void files.openRecent(file.token)}
              >
                <span className="list-label">{file.name}</span>
                <span className="list-about">{file.folder}</span>
              </MenuItem>
            ))}
          </NamedSubmenu>
          <NamedSubmenu label="Open a sample" isDisabled={start.samples.length === 0}>
            {start.samples.map((sample) => (
              <MenuItem
                key={sample.id}
                className="menu-item"
                textValue={sample.title}
                onAction={() => void files.openSample(sample.id)}
              >
                <span className="list-label">{sample.title}</span>
                <span className="list-about">{sample.about}</span>
              </MenuItem>
            ))}
          </NamedSubmenu>
          <Separator className="menu-separator" />
          {SAVE_IDS.map((id) => (
            <ActionItem key={id} id={id} />
          ))}
          <Separator className="menu-separator" />
          {EDIT_IDS.map((id) => (
            <ActionItem key={id} id={id} />
          ))}
          <Separator className="menu-separator" />
          {OTHER_IDS.map((id) => (
            <ActionItem key={id} id={id} />
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}

function ActionItem({ id }: { id: string }) {
  const app = useApp();
  const action = app.actions.find(id);
  if (action === undefined) return null;
  const label = getActionLabel(action, app);
  const [shortcut] = action.shortcuts ?? [];
  return (
    <MenuItem
      className="menu-item"
      textValue={label}
      isDisabled={!isActionEnabled(action, app)}
      onAction={() => action.perform(app)}
    >
      <span className="list-label">{label}</span>
      {shortcut !== undefined && (
        <span className="keys" aria-hidden="true">
          {formatShortcut(shortcut, app.onMac)}
        </span>
      )}
    </MenuItem>
  );
}

function NamedSubmenu(props: { label: string; isDisabled: boolean; children: React.ReactNode }) {
  return (
    <SubmenuTrigger>
      <MenuItem className="menu-item" textValue={props.label} isDisabled={props.isDisabled}>
        <span className="list-label">{props.label}</span>
        <Icon name="right" />
      </MenuItem>
      <Popover className="popover">
        <Menu className="menu is-wide">{props.children}</Menu>
      </Popover>
    </SubmenuTrigger>
  );
}
