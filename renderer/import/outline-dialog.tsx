import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { applyOutline, computePartFromOutline, type OutlineView } from '../../shared/outline/apply-outline';
import {
  describeSize,
  FILE_UNIT_SIZES,
  FILE_UNIT_WORDS,
  type FileUnit,
  proposeUnit,
  type UnitProposal,
} from '../../shared/outline/file-units';
import { OUTLINE_DEFAULTS, type OutlineOptions } from '../../shared/outline/outline';
import type { OutlineDrawing } from '../../shared/outline/outline-drawing';
import type { Point } from '../../shared/outline/point';
import { getLengthReader } from '../state/entry';
import { useApp, usePlan } from '../state/hooks';
import { createOutlineWork, type OutlineWork, type OutlineWorkState } from '../state/outline-work';
import { addPart, changePart } from '../state/part-edits';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { NumberField } from '../ui/number-field';
import { SelectField } from '../ui/select-field';
import { Checkbox, Segments } from '../ui/toggle';
import { createOutlineWorker } from './create-outline-worker';
import { OutlinePicture } from './outline-picture';
import { OutlineReport } from './outline-report';

export interface OutlineDialogProps {
  readonly name: string;
  readonly drawing: OutlineDrawing;
  readonly onClose: () => void;
}

const NEW_PART = 'new';

const VIEWS = [
  { id: 'top', label: 'From above' },
  { id: 'side', label: 'From the side' },
] as const;

const LATER = (run: () => void, delayMs: number): (() => void) => {
  const timer = setTimeout(run, delayMs);
  return () => clearTimeout(timer);
};

/** A drawing that was read: its unit, its view, what was done to it, and the part that it makes. */
export function OutlineDialog(props: OutlineDialogProps) {
  const { name, drawing, onClose } = props;
  const plan = usePlan();
  const work = useMemo(
    () => createOutlineWork(drawing, { createWorker: createOutlineWorker, later: LATER }),
    [drawing],
  );
  useEffect(() => {
    work.measure();
    return work.end;
  }, [work]);
  const { size, stage } = useStore(work.store);
  const proposal = useMemo(
    () => (size === null ? null : proposeUnit(size.width, size.height, drawing.declaredUnit, plan.units)),
    [size, drawing, plan.units],
  );
  if (proposal !== null) return <OutlineChoices {...props} work={work} proposal={proposal} />;
  return (
    <Dialog
      title={`Outline in ${name}`}
      onClose={onClose}
      size="large"
      footer={<Button onPress={onClose}>Cancel</Button>}
    >
      <WorkSentence stage={stage} />
    </Dialog>
  );
}

const WORK_SENTENCES: Readonly<Record<OutlineWorkState['stage'], string>> = {
  working: 'The outline is being worked out…',
  ready: '',
  tooSlow:
    'The outline takes longer than 2 s to work out, so it was given up. Save the drawing with the outline alone, or with fewer lines.',
  failed: 'The outline cannot be worked out from this drawing. The plan is as it was.',
};

function WorkSentence({ stage }: Pick<OutlineWorkState, 'stage'>) {
  return (
    <p className="outline-note" role="status">
      {WORK_SENTENCES[stage]}
    </p>
  );
}

/** What is chosen of a drawing whose size is known. */
function OutlineChoices(props: OutlineDialogProps & { work: OutlineWork; proposal: UnitProposal }) {
  const { name, drawing, onClose, work, proposal } = props;
  const { documents, view } = useApp();
  const plan = usePlan();
  const [options, setOptions] = useState<OutlineOptions>(() => ({
    ...OUTLINE_DEFAULTS,
    unit: proposal.unit,
    units: plan.units,
    quarterTurns: isUpright(proposal) ? 1 : 0,
  }));
  const [side, setSide] = useState<OutlineView>('top');
  const [target, setTarget] = useState(NEW_PART);
  const [third, setThird] = useState(plan.units === 'in' ? 25.4 : 25);
  const [place, setPlace] = useState<Point | null>(null);
  const change = (next: Partial<OutlineOptions>): void => {
    setOptions({ ...options, ...next });
    setPlace(null);
  };
  useEffect(() => work.ask(options), [work, options]);

  const { outline, stage } = useStore(work.store);
  const found = useMemo(
    () => (outline === null ? null : computePartFromOutline(outline, side, plan.units)),
    [outline, side, plan.units],
  );
  const isBlocked =
    stage !== 'ready' || found === null || outline?.remarks.some(({ severity }) => severity === 'block') === true;
  const layers = [...new Set(drawing.entities.map(({ layer }) => layer))].filter((layer) => layer !== '').sort();

  const apply = (): void => {
    if (found === null) return;
    if (target === NEW_PART) {
      const added = addPart(plan);
      const missing = side === 'top' ? { height: third } : { thickness: third };
      const title = name.replace(/\.[^.]*$/u, '');
      documents.edit(`read a part from ${name}`, () =>
        changePart(added.plan, added.id, (part) => applyOutline({ ...part, ...missing, name: title }, found, side)),
      );
      view.select([{ kind: 'part', id: added.id }]);
    } else {
      documents.edit(`read an outline from ${name}`, (before) =>
        changePart(before, target, (part) => applyOutline(part, found, side)),
      );
      view.select([{ kind: 'part', id: target }]);
    }
    onClose();
  };

  return (
    <Dialog
      title={`Outline in ${name}`}
      onClose={onClose}
      size="large"
      footer={
        <>
          <Button onPress={onClose}>Cancel</Button>
          <Button look="primary" isDisabled={isBlocked} onPress={apply}>
            {target === NEW_PART ? 'Add the part' : 'Change the part'}
          </Button>
        </>
      }
    >
      <div className="outline-layout">
        <div className="outline-side">
          {(outline === null || stage !== 'working') && <WorkSentence stage={stage} />}
          {outline !== null && (
            <>
              <OutlinePicture outline={outline} place={place} />
              <PartFigures found={found} />
              <OutlineReport drawing={drawing} outline={outline} partRemarks={found?.remarks ?? []} onShow={setPlace} />
            </>
          )}
        </div>
        <div className="outline-settings">
          <UnitChoice proposal={proposal} unit={options.unit} onChange={(unit) => change({ unit })} />
          <Segments label="Seen" options={VIEWS} value={side} onChange={setSide} />
          <div className="outline-turns">
            <Button
              onPress={() =>
                change({ quarterTurns: ((options.quarterTurns + 1) % 4) as OutlineOptions['quarterTurns'] })
              }
            >
              Turn a quarter
            </Button>
            <Checkbox
              label="Other hand: turned end for end"
              value={options.isMirrored}
              onChange={(isMirrored) => change({ isMirrored })}
            />
          </div>
          {found?.isHanded === true && (
            <p className="outline-note">It reads differently from its two ends: make sure of its hand.</p>
          )}
          <NumberField
            label="Close gaps up to"
            reader={getLengthReader(plan.units, { field: 'Close gaps up to' })}
            value={options.gapTolerance}
            onCommit={(gapTolerance) => change({ gapTolerance })}
          />
          <SelectField
            label="Part"
            value={target}
            onChange={setTarget}
            options={[
              { id: NEW_PART, label: 'a new part' },
              ...plan.parts.map(({ id, name: title }) => ({ id, label: title === '' ? 'unnamed part' : title })),
            ]}
          />
          {target === NEW_PART && (
            <NumberField
              label={side === 'top' ? 'Height' : 'Thickness'}
              reader={getLengthReader(plan.units, {
                field: side === 'top' ? 'Height' : 'Thickness',
                allowZero: false,
              })}
              value={third}
              onCommit={setThird}
              echoAlways
            />
          )}
          {layers.length > 1 && (
            <LayerChoice
              layers={layers}
              hidden={options.hiddenLayers}
              onChange={(hiddenLayers) => change({ hiddenLayers })}
            />
          )}
        </div>
      </div>
    </Dialog>
  );
}

/** Parts are drawn lying; one that stands is turned at first. */
function isUpright({ candidates }: UnitProposal): boolean {
  const [first] = candidates;
  return first !== undefined && first.height > first.width;
}

function UnitChoice(props: { proposal: UnitProposal; unit: FileUnit; onChange: (unit: FileUnit) => void }) {
  const { proposal, unit, onChange } = props;
  const [first] = proposal.candidates;
  const sizeIn = (of: FileUnit): string => {
    if (first === undefined) return '';
    const factor = FILE_UNIT_SIZES[of] / FILE_UNIT_SIZES[first.unit];
    return describeSize({ unit: of, width: first.width * factor, height: first.height * factor });
  };
  const all = Object.keys(FILE_UNIT_SIZES) as FileUnit[];
  const ids = [...new Set([...proposal.candidates.map((candidate) => candidate.unit), ...all])];
  return (
    <section className={`outline-unit${proposal.mustAsk ? ' is-asking' : ''}`} aria-label="Unit of the drawing">
      <p>
        {proposal.mustAsk && <strong>Which unit is it in? </strong>}
        {proposal.reason}
      </p>
      <SelectField
        label="Unit"
        value={unit}
        onChange={onChange}
        options={ids.map((id) => ({ id, label: FILE_UNIT_WORDS[id], about: sizeIn(id) }))}
      />
    </section>
  );
}

function PartFigures({ found }: { found: ReturnType<typeof computePartFromOutline> }) {
  const plan = usePlan();
  if (found === null) return null;
  const show = getLengthReader(plan.units).echo;
  const across = found.thickness === null ? 'Height' : 'Thickness';
  const describeHole = ({ diameter, slotLength }: { diameter: number; slotLength: number }): string =>
    slotLength > 0 ? `slot ${show(diameter)} wide` : `⌀ ${show(diameter)}`;
  return (
    <dl className="outline-figures">
      <dt>Length</dt>
      <dd>{show(found.length)}</dd>
      <dt>{across}</dt>
      <dd>{show(found.thickness ?? found.height ?? 0)}</dd>
      <dt>Stations</dt>
      <dd>{found.stations.length === 0 ? 'none: a plain bar shape' : found.stations.length}</dd>
      <dt>{found.thickness === null ? 'Cross holes' : 'Bores'}</dt>
      <dd>{found.holes.length === 0 ? 'none' : found.holes.map(describeHole).join(', ')}</dd>
    </dl>
  );
}

function LayerChoice(props: {
  layers: readonly string[];
  hidden: readonly string[];
  onChange: (hidden: string[]) => void;
}) {
  const { layers, hidden, onChange } = props;
  return (
    <fieldset className="outline-layers">
      <legend>Layers taken</legend>
      {layers.slice(0, 40).map((layer) => (
        <Checkbox
          key={layer}
          label={layer}
          value={!hidden.includes(layer)}
          onChange={(isTaken) => onChange(isTaken ? hidden.filter((other) => other !== layer) : [...hidden, layer])}
        />
      ))}
    </fieldset>
  );
}
