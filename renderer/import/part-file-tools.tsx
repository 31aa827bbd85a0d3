import { useApp, usePlan } from '../state/hooks';
import { exportParts, readListFile, readOutline } from '../state/imports';
import { Button } from '../ui/button';

/** Parts from drawings and lists, and the list of them. */
export function PartFileTools() {
  const app = useApp();
  const { parts } = usePlan();
  return (
    <>
      <Button onPress={() => void readOutline(app)}>Read an outline…</Button>
      <Button onPress={() => void readListFile(app, 'parts')}>Read a parts list…</Button>
      <Button isDisabled={parts.length === 0} onPress={() => void exportParts(app)}>
        Export the parts list…
      </Button>
    </>
  );
}
