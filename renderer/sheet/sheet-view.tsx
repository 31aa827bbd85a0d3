import { useDeferredValue, useEffect, useMemo, useState } from 'react';
import { buildSheet } from '../../shared/drawing/sheet/build-sheet';
import type { SheetPage } from '../../shared/drawing/sheet/page';
import { PAPERS } from '../../shared/drawing/sheet/papers';
import { getScaleText, SCALE_SERIES } from '../../shared/drawing/sheet/scales';
import { computePaper, computeScales, type DecidedScales } from '../../shared/drawing/sheet/sheet-choice';
import type { Decided } from '../../shared/engine/figure';
import type { Path } from '../../shared/model/edit';
import type { PaperSize } from '../../shared/model/plan';
import { ChoiceMark, DecisionSelect, useChoice } from '../panels/decision-field';
import { useApp, useEvaluation, useFiles, usePlan, useShop, useView } from '../state/hooks';
import { Button } from '../ui/button';
import { Icon } from '../ui/icon';
import { SelectField } from '../ui/select-field';
import { Checkbox, Segments } from '../ui/toggle';
import { SheetPages } from './sheet-pages';
import { SheetWords } from './sheet-words';

const PAPER_OPTIONS = (Object.keys(PAPERS) as PaperSize[]).map((id) => ({ id, label: PAPERS[id].name }));

const ZOOMS = [
  { id: 'width', label: 'width' },
  { id: 'page', label: 'whole page' },
  { id: 'true', label: '1 : 1' },
] as const;
type Zoom = (typeof ZOOMS)[number]['id'];

/** Smallest scale offered: beyond it nothing on page one can be read. */
const SMALLEST = 100;

const NO_SHEET = 'There is no sheet yet: add a part first.';

/** The fixture sheet as it will be printed, and what is written on it. */
export function SheetView() {
  const { view } = useApp();
  const measuredSquare = useView((state) => state.measuredSquare);
  const workings = useView((state) => state.workingsPrinted);
  const [zoom, setZoom] = useState<Zoom>('width');
  const { paper, scales, pages } = useSheet(measuredSquare, workings);
  const isEmpty = usePlan().parts.length === 0;
  usePrinting(isEmpty);
  return (
    <div className="sheet-page-view">
      <aside className="side-panel is-left" aria-label="What the sheet says">
        <header className="side-head">
          <h2>What the sheet says</h2>
        </header>
        <div className="side-body">
          <SheetWords />
        </div>
      </aside>
      <div className="sheet-main">
        <div className="sheet-tools">
          <DecisionSelect label="Paper" path={['sheet', 'paper']} decided={paper} options={PAPER_OPTIONS} />
          <ScaleField label="Section scale" path={['sheet', 'sectionScale']} decided={scales?.section ?? null} />
          <ScaleField label="Elevation scale" path={['sheet', 'elevationScale']} decided={scales?.elevation ?? null} />
          <Checkbox
            label="Workings"
            value={workings}
            onChange={(workingsPrinted) => view.store.setState({ workingsPrinted })}
          />
          <Segments label="Size on the screen" options={ZOOMS} value={zoom} onChange={setZoom} />
          <span className="sheet-count">
            {isEmpty ? '' : `${pages.length} ${pages.length === 1 ? 'page' : 'pages'}`}
          </span>
          <ExportButtons isDisabled={isEmpty} />
        </div>
        {isEmpty ? (
          <p className="empty">{NO_SHEET}</p>
        ) : (
          <SheetPages
            className={`is-zoom-${zoom}`}
            pages={pages}
            paper={paper.value}
            aria-label="Pages of the sheet"
            // What scrolls has to be reachable by keyboard.
            tabIndex={0}
          />
        )}
      </div>
    </div>
  );
}

interface ScaleFieldProps {
  readonly label: string;
  readonly path: Path;
  readonly decided: Decided<number> | null;
}

/** A scale of page one: auto, or one of the series. */
function ScaleField(props: ScaleFieldProps) {
  const { units } = usePlan();
  const control = useChoice(props, getScaleText);
  // A scale chosen before the units were changed stays on offer.
  const chosen = control.value === undefined ? [] : [control.value];
  const offered = [...new Set([...SCALE_SERIES[units].filter((each) => each <= SMALLEST), ...chosen])];
  const options = offered.toSorted((a, b) => a - b).map((each) => ({ id: String(each), label: getScaleText(each) }));
  return (
    <div className="decision-row">
      <SelectField
        label={props.label}
        options={options}
        value={control.value === undefined ? null : String(control.value)}
        placeholder="—"
        onChange={(id) => control.pin(Number(id))}
        onToggleKey={control.toggle}
      />
      <ChoiceMark {...control} label={props.label} decided={props.decided} show={getScaleText} />
    </div>
  );
}

interface ShownSheet {
  readonly paper: Decided<PaperSize>;
  readonly scales: DecidedScales | null;
  readonly pages: SheetPage[];
}

/** Pages follow a moment after the typing, which must not wait for them. */
function useSheet(measuredSquare: number | null, workings: boolean): ShownSheet {
  const plan = useDeferredValue(usePlan());
  const shop = useDeferredValue(useShop());
  const evaluation = useDeferredValue(useEvaluation());
  const fileName = useFiles().file?.name ?? '';
  const scales = useMemo(() => computeScales(plan, evaluation, shop), [plan, evaluation, shop]);
  const pages = useMemo(
    () => buildSheet(plan, evaluation, shop, { fileName, printCheck: { measuredSquare }, workings }),
    [plan, evaluation, shop, fileName, measuredSquare, workings],
  );
  return { paper: computePaper(plan), scales, pages };
}

function ExportButtons({ isDisabled }: { isDisabled: boolean }) {
  const { dialogs, files, view } = useApp();
  return (
    <div className="button-row sheet-buttons">
      <Button isDisabled={isDisabled} onPress={() => void dialogs.ask('saveView', {})}>
        One view…
      </Button>
      <Button isDisabled={isDisabled} onPress={() => void files.exportSheet('dxf')}>
        DXF…
      </Button>
      <Button isDisabled={isDisabled} onPress={() => void files.exportSheet('svg')}>
        SVG…
      </Button>
      <Button isDisabled={isDisabled} onPress={() => void files.exportSheet('pdf')}>
        Export PDF…
      </Button>
      <Button look="primary" isDisabled={isDisabled} onPress={view.requestPrint}>
        <Icon name="print" /> Print…
      </Button>
    </div>
  );
}

/** Prints once the pages are there, whether printing was asked for here or from another view. */
function usePrinting(isEmpty: boolean): void {
  const { view } = useApp();
  const isPending = useView((state) => state.printPending);
  useEffect(() => {
    if (!isPending) return;
    // The pages are drawn in their own effects, which have run by the next frame.
    const frame = requestAnimationFrame(() => {
      view.store.setState({ printPending: false });
      if (isEmpty) view.notify('problem', NO_SHEET);
      else window.print();
    });
    return () => cancelAnimationFrame(frame);
  }, [isPending, isEmpty, view]);
}
