import { useApp } from '../state/hooks';
import { exportRack, readListFile, readShopFile } from '../state/imports';
import { Button } from '../ui/button';

/** The library handed on and another taken in; the rack as a list. */
export function ShopFileTools({ isRack }: { isRack: boolean }) {
  const app = useApp();
  return (
    <section className="shop-files" aria-label="Files of the shop">
      {isRack && (
        <>
          <Button onPress={() => void readListFile(app, 'rack')}>Read a rack list…</Button>
          <Button onPress={() => void exportRack(app)}>Export the rack list…</Button>
        </>
      )}
      <Button onPress={() => void readShopFile(app)}>Read another library…</Button>
      <Button onPress={() => void app.files.exportShop()}>Export the library…</Button>
    </section>
  );
}
