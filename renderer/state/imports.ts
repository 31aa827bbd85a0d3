import type { HostCalls, HostVerb, ReadKind } from '../../shared/contract/host';
import { getListStyle, type ListStyle } from '../../shared/lists/list-style';
import { buildPurchaseRows } from '../../shared/lists/order-lists';
import { buildPartRows } from '../../shared/lists/part-list';
import { buildRackRows } from '../../shared/lists/rack-list';
import { resolveShop } from '../../shared/model/plan-library';
import type { App } from './app';
import type { ListKind } from './dialogs';

type ReadVerb = 'readOutline' | 'readTable' | 'readShop';

/** Reads a file of a kind, chosen by whichever dialog there is; undefined when there is nothing to go on with. */
async function read<V extends ReadVerb>(
  { files, host, view }: App,
  show: ReadKind,
  verb: V,
  build: (token: string | null) => HostCalls[V]['request'],
): Promise<NonNullable<HostCalls[V]['reply']> | undefined> {
  const token = await files.chooseFile(show);
  if (token === undefined) return undefined;
  const reply = await host.call<HostVerb>(verb, build(token));
  if (reply.ok) return (reply.value as HostCalls[V]['reply']) ?? undefined;
  view.notify('problem', reply.problem.sentence);
  return undefined;
}

/** Reads a drawing and asks how it is to be taken. */
export async function readOutline(app: App): Promise<void> {
  const found = await read(app, 'drawing', 'readOutline', (token) => ({ token }));
  if (found !== undefined) void app.dialogs.ask('readOutline', found);
}

/** Reads a list and asks how it is to be taken. */
export async function readListFile(app: App, list: ListKind): Promise<void> {
  const found = await read(app, 'list', 'readTable', (token) => ({ token, delimiter: null }));
  if (found !== undefined) void app.dialogs.ask('readList', { ...found, list });
}

/** Reads another shop and asks what of it is taken. */
export async function readShopFile(app: App): Promise<void> {
  const found = await read(app, 'shop', 'readShop', (token) => ({ token }));
  if (found !== undefined) void app.dialogs.ask('mergeShop', found);
}

/** How lists are written here: by the machine's language and the plan's units. */
export function getStyle({ start, documents }: App): ListStyle {
  return getListStyle(start.locale, documents.store.getState().plan.units);
}

export async function exportParts(app: App): Promise<void> {
  const style = getStyle(app);
  await app.files.exportTable('parts list', buildPartRows(app.documents.store.getState().plan.parts, style), style);
}

export async function exportRack(app: App): Promise<void> {
  const style = getStyle(app);
  await app.files.exportTable('rack list', buildRackRows(app.documents.store.getState().shop, style), style);
}

export async function exportPurchase(app: App): Promise<void> {
  const { plan, shop } = app.documents.store.getState();
  const { order } = app.evaluator(plan, shop).evaluation;
  if (order === null)
    return app.view.notify('problem', 'There is nothing to buy yet: the plan needs a part and a bar that fits.');
  const style = getStyle(app);
  await app.files.exportTable('purchase list', buildPurchaseRows(order, resolveShop(plan, shop), style), style);
}
