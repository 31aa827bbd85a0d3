import { memo } from 'react';
import { formatLength } from '../../shared/units/format';
import { useApp, useView } from '../state/hooks';
import { Button, IconButton } from '../ui/button';
import { showEverything } from './bench-store';
import { useBenchSession } from './use-bench';

const STEP = 1.25;

/** Closer, further, everything. */
export const ZoomButtons = memo(function ZoomButtons() {
  const { controller, store } = useBenchSession();
  return (
    <span className="bench-tools">
      <IconButton icon="minus" label="Zoom out" hint="−" onPress={() => controller.zoom('elevation', 1 / STEP)} />
      <IconButton icon="plus" label="Zoom in" hint="+" onPress={() => controller.zoom('elevation', STEP)} />
      <Button look="quiet" onPress={() => showEverything(store)}>
        Fit
      </Button>
    </span>
  );
});

/** Where the section is taken, and the way back to where it matters most. */
export function SectionPlace({ sectionX, units }: { sectionX: number; units: 'in' | 'mm' }) {
  const { view } = useApp();
  const isMoved = useView((state) => state.sectionX !== null);
  return (
    <span className="bench-tools">
      <span className="bench-note">at X {formatLength(sectionX, units)}</span>
      {isMoved && (
        <Button look="quiet" onPress={() => view.setSectionX(null)}>
          Reset
        </Button>
      )}
    </span>
  );
}
