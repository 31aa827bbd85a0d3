import { useCallback } from 'react';
import { buildPart } from '../../shared/drawing/views/part-view';
import { buildHole, buildStation } from '../../shared/model/build-part';
import type { Path } from '../../shared/model/edit';
import { FACES, type PerFace } from '../../shared/model/faces';
import { nextId } from '../../shared/model/next-id';
import type { Part } from '../../shared/model/plan';
import { useApp, usePlan } from '../state/hooks';
import { changePart } from '../state/part-edits';
import { Drawing } from '../ui/drawing';
import { Checkbox } from '../ui/toggle';
import { FACE_LABELS } from './faces-panel';
import { ListEditor } from './list-editor';
import { PlanCheckbox, PlanLength, PlanSelect, PlanText } from './plan-fields';
import { RecordedResults } from './recorded-results';

const STATION_KINDS = [
  { id: 'shank', label: 'shank' },
  { id: 'boss', label: 'boss' },
  { id: 'taper', label: 'taper' },
  { id: 'web', label: 'web' },
] as const;

const HOLE_AXES = [
  { id: 'z', label: 'bore from the top' },
  { id: 'y', label: 'cross hole' },
] as const;

/** The chosen part: its picture, its shape along X, its holes, and what must be known of its faces. */
export function PartEditor({ part }: { part: Part }) {
  const plan = usePlan();
  const index = plan.parts.findIndex((candidate) => candidate.id === part.id);
  const path: Path = ['parts', index];
  const name = part.name === '' ? `part ${index + 1}` : part.name;
  const build = useCallback((mmPerPaperMm: number) => buildPart(plan, part.id, { mmPerPaperMm }), [plan, part.id]);
  return (
    <section className="part-editor" aria-label={`${name} in full`}>
      <h2 className="visually-hidden">{name} in full</h2>
      <div className="part-picture">
        <Drawing
          label={`Drawing of ${name}`}
          length={part.length}
          height={part.height + part.thickness}
          margin={48}
          build={build}
        />
      </div>
      <div className="part-details">
        <Stations part={part} path={path} name={name} />
        <Holes part={part} path={path} name={name} />
        <KeepOuts part={part} path={path} name={name} />
        <PartFaces part={part} path={path} name={name} />
        <PlanText label="Note" path={[...path, 'note']} of={name} lines={2} />
        <RecordedResults part={part} name={name} />
      </div>
    </section>
  );
}

interface DetailProps {
  readonly part: Part;
  readonly path: Path;
  readonly name: string;
}

function useChangePart(part: Part): (step: string, change: (part: Part) => Part) => void {
  const { documents } = useApp();
  return (step, change) => documents.edit(step, (plan) => changePart(plan, part.id, change));
}

function Stations({ part, path, name }: DetailProps) {
  const change = useChangePart(part);
  return (
    <ListEditor
      title="Width along X"
      about="Where the part is not as thick as stated above; measured from its left end."
      columns={['Kind', 'From', 'To', 'Width', 'Width at the end']}
      rows={part.stations.map((station, index) => ({ key: `${index}:${station.kind}`, name: `station ${index + 1}` }))}
      addLabel="Add a station"
      onAdd={() =>
        change(`add a station to ${name}`, (before) => ({
          ...before,
          stations: [...before.stations, buildStation({ ...getFreeSpan(before), width: before.thickness })],
        }))
      }
      onRemove={(index) =>
        change(`remove a station of ${name}`, (before) => ({
          ...before,
          stations: before.stations.toSpliced(index, 1),
        }))
      }
      renderCells={(index) => {
        const at = [...path, 'stations', index];
        const of = `station ${index + 1}`;
        return [
          <PlanSelect key="kind" label={`Kind of ${of}`} path={[...at, 'kind']} options={STATION_KINDS} hideLabel />,
          <PlanLength key="from" label={`From, ${of}`} path={[...at, 'from']} hideLabel />,
          <PlanLength key="to" label={`To, ${of}`} path={[...at, 'to']} hideLabel />,
          <PlanLength
            key="width"
            label={`Width of ${of}`}
            path={[...at, 'width']}
            options={{ allowZero: false }}
            hideLabel
          />,
          <PlanLength
            key="end"
            label={`End width of ${of}`}
            path={[...at, 'widthEnd']}
            options={{ allowZero: false }}
            hideLabel
          />,
        ];
      }}
    />
  );
}

function Holes({ part, path, name }: DetailProps) {
  const change = useChangePart(part);
  return (
    <ListEditor
      title="Holes"
      about="Bores are made from above; a bore finished before the cut-off leaves a ring for the rib."
      columns={['Direction', 'At X', 'At Z', 'Diameter', 'Slot', 'Through', 'Before cut-off']}
      rows={part.holes.map((hole, index) => ({ key: hole.id, name: `hole ${index + 1}` }))}
      addLabel="Add a hole"
      onAdd={() =>
        change(`add a hole to ${name}`, (before) => ({
          ...before,
          holes: [
            ...before.holes,
            buildHole({ id: nextId(before.holes, 'hole'), x: before.length / 2, diameter: before.thickness / 2 }),
          ],
        }))
      }
      onRemove={(index) =>
        change(`remove a hole of ${name}`, (before) => ({ ...before, holes: before.holes.toSpliced(index, 1) }))
      }
      renderCells={(index) => {
        const at = [...path, 'holes', index];
        const of = `hole ${index + 1}`;
        const isCross = part.holes[index]?.axis === 'y';
        return [
          <PlanSelect key="axis" label={`Direction of ${of}`} path={[...at, 'axis']} options={HOLE_AXES} hideLabel />,
          <PlanLength key="x" label={`X of ${of}`} path={[...at, 'x']} hideLabel />,
          isCross ? (
            <PlanLength key="z" label={`Z of ${of}`} path={[...at, 'z']} hideLabel />
          ) : (
            <span key="z" className="no-value">
              —
            </span>
          ),
          <PlanLength
            key="diameter"
            label={`Diameter of ${of}`}
            path={[...at, 'diameter']}
            options={{ allowZero: false }}
            hideLabel
          />,
          <PlanLength key="slot" label={`Slot length of ${of}`} path={[...at, 'slotLength']} hideLabel />,
          <CellCheckbox key="through" label={`${of} goes through`} path={[...at, 'through']} />,
          <CellCheckbox key="before" label={`${of} is made before the cut-off`} path={[...at, 'beforeCutOff']} />,
        ];
      }}
    />
  );
}

function CellCheckbox({ label, path }: { label: string; path: Path }) {
  return (
    <span className="cell-checkbox">
      <PlanCheckbox label={label} path={path} hideLabel />
    </span>
  );
}

function KeepOuts({ part, path, name }: DetailProps) {
  const change = useChangePart(part);
  return (
    <ListEditor
      title="No tab here"
      about="Stretches along X where a tab would spoil a face that matters."
      columns={['From', 'To']}
      rows={part.keepOuts.map((span, index) => ({ key: `${index}:${span.from}`, name: `stretch ${index + 1}` }))}
      addLabel="Add a stretch"
      onAdd={() =>
        change(`keep tabs off a stretch of ${name}`, (before) => ({
          ...before,
          keepOuts: [...before.keepOuts, { from: 0, to: before.length / 4 }],
        }))
      }
      onRemove={(index) =>
        change(`let tabs stand on ${name} again`, (before) => ({
          ...before,
          keepOuts: before.keepOuts.toSpliced(index, 1),
        }))
      }
      renderCells={(index) => [
        <PlanLength
          key="from"
          label={`From, stretch ${index + 1}`}
          path={[...path, 'keepOuts', index, 'from']}
          hideLabel
        />,
        <PlanLength key="to" label={`To, stretch ${index + 1}`} path={[...path, 'keepOuts', index, 'to']} hideLabel />,
      ]}
    />
  );
}

function PartFaces({ part, path, name }: DetailProps) {
  const plan = usePlan();
  const change = useChangePart(part);
  const setOwnAllowance = (own: boolean): void =>
    change(own ? `give ${name} an allowance of its own` : `leave ${name} the plan’s allowance`, (before) => ({
      ...before,
      allowance: own ? ({ ...plan.allowance } satisfies PerFace<number>) : null,
    }));
  const setTolerance = (key: 'thicknessTolerance' | 'heightTolerance', on: boolean): void =>
    change(on ? `give ${name} size limits` : `take the size limits off ${name}`, (before) => ({
      ...before,
      [key]: on ? { plus: 0, minus: 0.05 } : null,
    }));
  return (
    <div className="part-faces">
      <fieldset>
        <legend>Stays as the bar came</legend>
        {FACES.map((face) => (
          <Checkbox
            key={face}
            label={FACE_LABELS[face]}
            value={part.asSupplied.includes(face)}
            onChange={(on) =>
              change(`${on ? 'leave' : 'machine'} the ${FACE_LABELS[face].toLowerCase()} of ${name}`, (before) => ({
                ...before,
                asSupplied: FACES.filter((other) => (other === face ? on : before.asSupplied.includes(other))),
              }))
            }
          />
        ))}
      </fieldset>
      <fieldset>
        <legend>Size limits</legend>
        {(['thicknessTolerance', 'heightTolerance'] as const).map((key) => {
          const label = key === 'thicknessTolerance' ? 'Thickness' : 'Height';
          return (
            <div key={key}>
              <Checkbox
                label={`${label} has limits`}
                value={part[key] !== null}
                onChange={(on) => setTolerance(key, on)}
              />
              {part[key] !== null && (
                <>
                  <PlanLength label={`${label} plus`} path={[...path, key, 'plus']} of={name} />
                  <PlanLength label={`${label} minus`} path={[...path, key, 'minus']} of={name} />
                </>
              )}
            </div>
          );
        })}
      </fieldset>
      <fieldset>
        <legend>Profile</legend>
        <PlanLength label="Tightest inside corner" path={[...path, 'insideCorner']} of={name} placeholder="none" />
      </fieldset>
      <fieldset>
        <legend>Allowance</legend>
        <Checkbox label="Its own, not the plan’s" value={part.allowance !== null} onChange={setOwnAllowance} />
        {part.allowance !== null &&
          FACES.map((face) => (
            <PlanLength key={face} label={FACE_LABELS[face]} path={[...path, 'allowance', face]} of={name} />
          ))}
      </fieldset>
    </div>
  );
}

/** The stretch after the last station, or the whole part. */
function getFreeSpan(part: Part): { from: number; to: number } {
  const end = part.stations.reduce((most, station) => Math.max(most, station.to), 0);
  return end < part.length ? { from: end, to: part.length } : { from: 0, to: part.length };
}
