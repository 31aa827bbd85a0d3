import { useState } from 'react';
import { Input, ListBox, ListBoxItem, SearchField } from 'react-aria-components';
import { defaultShop } from '../../shared/model/catalogue/default-shop';
import { nextId } from '../../shared/model/next-id';
import type { Shop } from '../../shared/model/shop';
import { useApp, usePlan, useShop } from '../state/hooks';
import { Button } from '../ui/button';
import { ENTRY_KINDS, type EntryKind } from './entry-kinds';
import type { Entry, ListKey } from './field-spec';
import { ShopField } from './shop-fields';

/** One list of the shop: find an entry, change it, add one like it, take it out. */
export function EntryList({ listKey }: { listKey: ListKey }) {
  const { documents } = useApp();
  const shop = useShop();
  const { units } = usePlan();
  const [wanted, setWanted] = useState('');
  const [selectedId, setSelectedId] = useState<string | null>(null);
  const kind = ENTRY_KINDS[listKey] as unknown as EntryKind<ListKey>;
  const entries: readonly Entry[] = shop[listKey];
  const lines = entries
    .map((entry) => ({
      id: entry.id,
      name: kind.getName(entry, shop, units),
      facts: kind.getFacts(entry, shop, units),
    }))
    .filter((line) => `${line.name} ${line.facts}`.toLowerCase().includes(wanted.trim().toLowerCase()));
  const selected =
    entries.find((entry) => entry.id === selectedId) ?? entries.find((entry) => entry.id === lines[0]?.id);

  const add = (): void => {
    const id = nextId(entries, kind.prefix);
    const entry = buildEntry(kind, listKey, selected, id);
    if (entry === null) return;
    documents.editShop(
      `shop: add a ${kind.one}`,
      (before) => ({ ...before, [listKey]: [...before[listKey], entry] }) as Shop,
    );
    setWanted('');
    setSelectedId(id);
  };
  const remove = (entry: Entry): void => {
    documents.editShop(
      `shop: remove ${kind.getName(entry, shop, units)}`,
      (before) => ({ ...before, [listKey]: entries.filter(({ id }) => id !== entry.id) }) as Shop,
    );
    setSelectedId(null);
  };

  return (
    <>
      <section className="entry-list" aria-label={kind.title}>
        <header>
          <h2>{kind.title}</h2>
          <p>{kind.about}</p>
          <SearchField
            aria-label={`Find in ${kind.title.toLowerCase()}`}
            className="search-field"
            value={wanted}
            onChange={setWanted}
          >
            <Input className="input" placeholder={`Find among ${entries.length}`} />
          </SearchField>
        </header>
        <ListBox
          aria-label={kind.title}
          className="list-box entry-box"
          items={lines}
          selectionMode="single"
          selectedKeys={selected === undefined ? [] : [selected.id]}
          onSelectionChange={(keys) => {
            const [key] = keys;
            if (key !== undefined) setSelectedId(String(key));
          }}
          renderEmptyState={() => <p className="empty">{entries.length === 0 ? 'None yet.' : 'None of that name.'}</p>}
        >
          {(line) => (
            <ListBoxItem id={line.id} textValue={line.name} className="list-item entry-item">
              <span className="list-label">{line.name}</span>
              <span className="list-about">{line.facts}</span>
            </ListBoxItem>
          )}
        </ListBox>
        <footer className="button-row">
          <Button onPress={add}>{selected === undefined ? `Add a ${kind.one}` : 'Add one like this'}</Button>
          {selected !== undefined && (
            <Button look="quiet" onPress={() => remove(selected)}>
              Remove
            </Button>
          )}
        </footer>
      </section>
      {selected !== undefined && (
        <section className="entry-form" aria-label={kind.getName(selected, shop, units)}>
          <h2>{kind.getName(selected, shop, units)}</h2>
          <div className="form-groups">
            {kind.getGroups(selected).map((group) => (
              <fieldset key={group.title} className="form-group">
                <legend>{group.title}</legend>
                {group.fields.map((spec) => (
                  <ShopField
                    key={`${selected.id}:${spec.label}`}
                    spec={spec}
                    base={[listKey, entries.indexOf(selected)]}
                    of={kind.getName(selected, shop, units)}
                  />
                ))}
              </fieldset>
            ))}
          </div>
        </section>
      )}
    </>
  );
}

/** An entry like the one selected; else like the first that comes with the program. */
function buildEntry(kind: EntryKind<ListKey>, listKey: ListKey, like: Entry | undefined, id: string): Entry | null {
  const model = like ?? kind.first ?? defaultShop[listKey][0];
  if (model === undefined || model === null) return null;
  const copy = { ...model, id } as Entry;
  return 'name' in copy && like !== undefined ? { ...copy, name: `${copy.name} copy` } : copy;
}
