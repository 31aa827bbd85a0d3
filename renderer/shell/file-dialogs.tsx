import { type FormEvent, useState } from 'react';
import { GridList, GridListItem, Input, Label, TextField } from 'react-aria-components';
import type { FolderEntry, ReadKind } from '../../shared/contract/host';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { Icon } from '../ui/icon';
import { type FolderState, useFolder } from './use-folder';

type Shown = 'plan' | ReadKind;

const OPEN_TITLES: Record<Shown, string> = {
  plan: 'Open a plan',
  drawing: 'Read an outline: DXF or SVG',
  list: 'Read a list: CSV',
  shop: 'Read a shop library',
};

const NONE_HERE: Record<Shown, string> = {
  plan: 'No plans here.',
  drawing: 'No DXF or SVG drawings here.',
  list: 'No CSV lists here.',
  shop: 'No shop libraries here.',
};

export function OpenDialog({ show, onAnswer }: { show: Shown; onAnswer: (token: string | null) => void }) {
  const folder = useFolder(show);
  const [chosen, setChosen] = useState<FolderEntry | null>(null);
  const open = (entry: FolderEntry): void => {
    if (entry.kind === 'folder') folder.enter(entry.token);
    else onAnswer(entry.token);
  };
  return (
    <Dialog
      title={OPEN_TITLES[show]}
      onClose={() => onAnswer(null)}
      size="medium"
      footer={
        <>
          <Button onPress={() => onAnswer(null)}>Cancel</Button>
          <Button look="primary" isDisabled={chosen === null} onPress={() => chosen !== null && open(chosen)}>
            Open
          </Button>
        </>
      }
    >
      <FolderList folder={folder} show={show} onChoose={setChosen} onOpen={open} />
    </Dialog>
  );
}

export function SaveDialog(props: {
  what: string;
  suggestedName: string;
  onAnswer: (place: { folder: string; name: string } | null) => void;
}) {
  const folder = useFolder('plan');
  const [name, setName] = useState(props.suggestedName);
  const canSave = folder.listing !== null && name.trim() !== '';
  const save = (): void => {
    if (folder.listing !== null && canSave) props.onAnswer({ folder: folder.listing.folder, name: name.trim() });
  };
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    save();
  };
  return (
    <Dialog
      title={`Save ${props.what}`}
      onClose={() => props.onAnswer(null)}
      size="medium"
      footer={
        <>
          <Button onPress={() => props.onAnswer(null)}>Cancel</Button>
          <Button look="primary" isDisabled={!canSave} onPress={save}>
            Save
          </Button>
        </>
      }
    >
      <form onSubmit={submit}>
        <TextField className="field is-wide" value={name} onChange={setName} autoFocus>
          <Label className="field-label">File name</Label>
          <Input className="input" />
        </TextField>
      </form>
      <FolderList
        folder={folder}
        show="plan"
        onChoose={(entry) => entry?.kind === 'plan' && setName(entry.name)}
        onOpen={(entry) => entry.kind === 'folder' && folder.enter(entry.token)}
      />
    </Dialog>
  );
}

interface FolderListProps {
  readonly folder: FolderState;
  readonly show: Shown;
  readonly onChoose: (entry: FolderEntry | null) => void;
  /** Pressed twice, or with Enter. */
  readonly onOpen: (entry: FolderEntry) => void;
}

function FolderList({ folder, show, onChoose, onOpen }: FolderListProps) {
  const { listing, problem, enter } = folder;
  const find = (token: unknown): FolderEntry | null => listing?.entries.find((entry) => entry.token === token) ?? null;
  const open = (token: string): void => {
    const entry = find(token);
    if (entry !== null) onOpen(entry);
  };
  return (
    <div className="folder">
      <p className="folder-path">
        <Button look="quiet" isDisabled={listing?.parent == null} onPress={() => enter(listing?.parent ?? null)}>
          <Icon name="up" /> Up
        </Button>
        <span>{listing?.shown ?? ''}</span>
      </p>
      {problem !== '' && (
        <p className="field-error" role="alert">
          {problem}
        </p>
      )}
      <GridList
        aria-label={listing === null ? 'Folder' : `Files in ${listing.shown}`}
        className="folder-list"
        items={listing?.entries ?? []}
        selectionMode="single"
        selectionBehavior="replace"
        onSelectionChange={(keys) => onChoose(keys === 'all' ? null : find([...keys][0]))}
        onAction={(key) => open(String(key))}
        renderEmptyState={() => <p className="empty">{NONE_HERE[show]}</p>}
      >
        {(entry) => (
          <GridListItem id={entry.token} textValue={entry.name} className="folder-entry">
            <Icon name={entry.kind === 'folder' ? 'folder' : 'file'} /> {entry.name}
          </GridListItem>
        )}
      </GridList>
    </div>
  );
}
