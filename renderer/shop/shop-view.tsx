import { useState } from 'react';
import { ListBox, ListBoxItem } from 'react-aria-components';
import { getLibraryDifferences, refreshLibrary } from '../../shared/model/plan-library';
import { ShopFileTools } from '../import/shop-file-tools';
import { useApp, usePlan, useShop } from '../state/hooks';
import { Button } from '../ui/button';
import { ENTRY_KINDS, LIST_KEYS } from './entry-kinds';
import { EntryList } from './entry-list';
import type { ListKey } from './field-spec';
import { MachineForm } from './machine-form';
import { RulesForm } from './rules-form';

type Page = ListKey | 'machine' | 'rules';

const PAGES: readonly { readonly id: Page; readonly title: string }[] = [
  { id: 'machine', title: 'Shop and machine' },
  ...LIST_KEYS.map((id) => ({ id, title: ENTRY_KINDS[id].title })),
  { id: 'rules', title: 'House rules' },
];

/** The shop's own library, all of it editable; saved by itself as it changes. */
export function ShopView() {
  const shop = useShop();
  const [page, setPage] = useState<Page>('machine');
  const countOf = (id: Page): string => (id === 'machine' || id === 'rules' ? '' : String(shop[id].length));
  return (
    <div className="shop-page">
      <nav className="shop-nav" aria-label="Parts of the shop">
        <ListBox
          aria-label="Parts of the shop"
          className="list-box"
          items={PAGES}
          selectionMode="single"
          disallowEmptySelection
          selectedKeys={[page]}
          onSelectionChange={(keys) => {
            const [key] = keys;
            if (key !== undefined) setPage(String(key) as Page);
          }}
        >
          {({ id, title }) => (
            <ListBoxItem id={id} textValue={title} className="list-item shop-nav-item">
              <span>{title}</span>
              <small>{countOf(id)}</small>
            </ListBoxItem>
          )}
        </ListBox>
        <ShopFileTools isRack={page === 'rack'} />
        <PlanCopies />
      </nav>
      <div className="shop-body">
        {page === 'machine' ? (
          <MachineForm />
        ) : page === 'rules' ? (
          <RulesForm />
        ) : (
          <EntryList key={page} listKey={page} />
        )}
      </div>
    </div>
  );
}

/** A plan keeps the figures it was made with; here they can be replaced by the shop's. */
function PlanCopies() {
  const { documents } = useApp();
  const plan = usePlan();
  const shop = useShop();
  const differences = getLibraryDifferences(plan, shop);
  if (differences.length === 0) return null;
  const names = differences
    .slice(0, 4)
    .map(({ name, kind }) => (kind === 'missing' ? `${name} (not in the shop)` : name));
  return (
    <section className="plan-copies" aria-label="Copies in the plan">
      <p>
        The open plan was made with other figures for {names.join(', ')}
        {differences.length > 4 && ` and ${differences.length - 4} more`}. It keeps them until you say otherwise.
      </p>
      <Button onPress={() => documents.edit('use the shop’s figures', (before) => refreshLibrary(before, shop))}>
        Use the shop’s figures
      </Button>
    </section>
  );
}
