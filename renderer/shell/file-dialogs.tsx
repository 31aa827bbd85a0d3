import { type FormEvent, useState } from 'react';
import { GridList, GridListItem, Input, Label, TextField } from 'react-aria-components';
import type { FolderEntry } from '../../shared/contract/host';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { Icon } from '../ui/icon';
import { type FolderState, useFolder } from './use-folder';

export function OpenDialog({ onAnswer }: { onAnswer: (token: string | null) => void }) {
  const folder = useFolder();
  return (
    <Dialog title="Open a plan" onClose={() => onAnswer(null)} size="medium">
      <FolderList folder={folder} onFile={(entry) => onAnswer(entry.token)} />
    </Dialog>
  );
}

export function SaveDialog(props: {
  what: string;
  suggestedName: string;
  onAnswer: (place: { folder: string; name: string } | null) => void;
}) {
  const folder = useFolder();
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
      <FolderList folder={folder} onFile={(entry) => setName(entry.name)} />
    </Dialog>
  );
}

function FolderList({ folder, onFile }: { folder: FolderState; onFile: (entry: FolderEntry) => void }) {
  const { listing, problem, enter } = folder;
  const open = (token: string): void => {
    const entry = listing?.entries.find((candidate) => candidate.token === token);
    if (entry?.kind === 'folder') enter(entry.token);
    else if (entry !== undefined) onFile(entry);
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
        onAction={(key) => open(String(key))}
        renderEmptyState={() => <p className="empty">No plans here.</p>}
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
