import { useEffect, useMemo, useState } from 'react';
import { createPortal } from 'react-dom';
import { buildCutListPages } from '../../shared/drawing/sheet/build-cut-list';
import { computePaper } from '../../shared/drawing/sheet/sheet-choice';
import { SheetPages } from '../sheet/sheet-pages';
import { useEvaluation, useFiles, usePlan, useShop } from '../state/hooks';
import { Button } from '../ui/button';
import { Icon } from '../ui/icon';

/** Prints what the saw needs and nothing else of the sheet. */
export function PrintCutList() {
  const [isPrinting, setPrinting] = useState(false);
  return (
    <>
      <Button isDisabled={isPrinting} onPress={() => setPrinting(true)}>
        <Icon name="print" /> Print the cut list…
      </Button>
      {isPrinting && <CutListPages onPrinted={() => setPrinting(false)} />}
    </>
  );
}

/** Pages that only paper shows; sent to the printer once they are drawn, and gone when that is done with them. */
function CutListPages({ onPrinted }: { onPrinted: () => void }) {
  const plan = usePlan();
  const shop = useShop();
  const evaluation = useEvaluation();
  const fileName = useFiles().file?.name ?? '';
  const pages = useMemo(
    () => buildCutListPages(plan, evaluation, shop, { fileName }),
    [plan, evaluation, shop, fileName],
  );
  useEffect(() => {
    window.addEventListener('afterprint', onPrinted, { once: true });
    // The pages are drawn in their own effects, which have run by the next frame.
    const frame = requestAnimationFrame(() => window.print());
    return () => {
      cancelAnimationFrame(frame);
      window.removeEventListener('afterprint', onPrinted);
    };
  }, [onPrinted]);
  return createPortal(
    <SheetPages className="cut-list-pages" pages={pages} paper={computePaper(plan).value} aria-hidden="true" />,
    document.body,
  );
}
