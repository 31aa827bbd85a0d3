import { memo } from 'react';
import { formatLength } from '../../shared/units/format';
import { useApp, useView } from '../state/hooks';
import { Button, IconButton } from '../ui/button';
import { Segments } from '../ui/toggle';
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

const PASSES = [
  { id: 'cutOff', label: 'cut-off' },
  { id: 'endMill', label: 'end mill' },
] as const;

/** Which tool stands in the section: the cut-off cutter at the end of its cut, or the end mill at its deepest pass. */
function SectionPasses() {
  const { view } = useApp();
  const pass = useView((state) => state.sectionPass);
  return (
    <Segments
      label="Tool in the section"
      options={PASSES}
      value={pass}
      onChange={(sectionPass) => view.store.setState({ sectionPass })}
    />
  );
}

/** Where the section is taken, and the way back to where it matters most. */
export function SectionPlace({ sectionX, units }: { sectionX: number; units: 'in' | 'mm' }) {
  const { view } = useApp();
  const isMoved = useView((state) => state.sectionX !== null);
  return (
    <span className="bench-tools">
      <SectionPasses />
      <span className="bench-note">at X {formatLength(sectionX, units)}</span>
      {isMoved && (
        <Button look="quiet" onPress={() => view.setSectionX(null)}>
          Reset
        </Button>
      )}
    </span>
  );
}
