import { useEffect, useMemo, useRef, useState } from 'react';
import type { ViewChoice } from '../../shared/contract/host';
import { getScaleText } from '../../shared/drawing/sheet/scales';
import { toSvg } from '../../shared/drawing/sinks/svg';
import { buildChosenView } from '../../shared/drawing/views/chosen-view';
import type { Evaluation } from '../../shared/evaluate';
import type { Plan } from '../../shared/model/plan';
import { useApp, useEvaluation, usePlan, useShop, useView } from '../state/hooks';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { type Option, SelectField } from '../ui/select-field';
import { renderPicture } from './render-picture';

const VIEWS: readonly Option<ViewChoice['view']>[] = [
  { id: 'elevation', label: 'Elevation', about: 'the setup from the front' },
  { id: 'section', label: 'End section', about: 'cut across where the Bench cuts it' },
  { id: 'plan', label: 'Plan', about: 'the table from above' },
  { id: 'stack', label: 'Height stack' },
  { id: 'shelf', label: 'Jaw shelf', about: 'the pocket in the soft jaws and its spacer' },
  { id: 'part', label: 'Part', about: 'with its allowance' },
];
const LEAST_GRIP = 'least';

/** One view by itself: as a drawing in true size, or as a picture for a message. */
export function SaveViewDialog({ onClose }: { onClose: () => void }) {
  const { files, view: appView } = useApp();
  const plan = usePlan();
  const shop = useShop();
  const evaluation = useEvaluation();
  const sectionX = useView((state) => state.sectionX);
  const sectionPass = useView((state) => state.sectionPass);
  const [kind, setKind] = useState<ViewChoice['view']>('elevation');
  const [partId, setPartId] = useState(plan.parts[0]?.id ?? '');
  const [blank, setBlank] = useState(LEAST_GRIP);
  const choice = useMemo<ViewChoice>(
    () => ({
      view: kind,
      partId: kind === 'part' ? partId : '',
      blankIndex: blank === LEAST_GRIP ? null : Number(blank),
      sectionX,
      sectionPass,
    }),
    [kind, partId, blank, sectionX, sectionPass],
  );
  const drawn = useMemo(() => buildChosenView(plan, evaluation, shop, choice), [plan, evaluation, shop, choice]);
  const isEmpty = drawn.marks.every((mark) => mark.kind === 'text');
  const save = async (format: 'svg' | 'dxf' | 'png'): Promise<void> => {
    onClose();
    if (format !== 'png') return files.exportView(choice, drawn.title, format);
    const picture = await renderPicture(drawn).catch(() => null);
    if (picture === null) appView.notify('problem', 'The picture could not be drawn.');
    else await files.exportPicture(picture, drawn.title);
  };
  return (
    <Dialog
      title="Save one view"
      onClose={onClose}
      size="large"
      footer={
        <>
          <Button onPress={onClose}>Cancel</Button>
          <Button isDisabled={isEmpty} onPress={() => void save('dxf')}>
            DXF…
          </Button>
          <Button isDisabled={isEmpty} onPress={() => void save('svg')}>
            SVG…
          </Button>
          <Button look="primary" isDisabled={isEmpty} onPress={() => void save('png')}>
            PNG picture…
          </Button>
        </>
      }
    >
      <div className="save-view-fields">
        <SelectField label="View" options={VIEWS} value={kind} onChange={setKind} />
        {kind === 'part' && (
          <SelectField label="Part" options={getPartOptions(plan)} value={partId} onChange={setPartId} />
        )}
        {kind !== 'part' && evaluation.blanks.length > 1 && (
          <SelectField label="Blank" options={getBlankOptions(evaluation)} value={blank} onChange={setBlank} />
        )}
      </div>
      <SvgPicture text={toSvg(drawn)} label={drawn.title} />
      <p className="save-view-about">
        DXF and SVG are in true size, in mm, lettered for {getScaleText(drawn.mmPerPaperMm)}. The PNG is for a message:
        do not measure from it.
      </p>
    </Dialog>
  );
}

function getPartOptions(plan: Plan): Option<string>[] {
  return plan.parts.map((part, index) => ({ id: part.id, label: part.name || part.number || `Part ${index + 1}` }));
}

function getBlankOptions({ blanks }: Evaluation): Option<string>[] {
  const each = blanks.map(({ label }, index) => ({ id: String(index), label }));
  return [{ id: LEAST_GRIP, label: 'the one that grips least' }, ...each];
}

function SvgPicture({ text, label }: { text: string; label: string }) {
  const element = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const svg = document.importNode(new DOMParser().parseFromString(text, 'image/svg+xml').documentElement, true);
    svg.querySelector('title')?.remove();
    element.current?.replaceChildren(svg);
  }, [text]);
  return <div ref={element} role="img" aria-label={label} className="save-view-picture" />;
}
