import { memo } from 'react';
import type { Evaluation } from '../../shared/evaluate';
import { IconButton } from '../ui/button';
import { SelectField } from '../ui/select-field';
import { Segments } from '../ui/toggle';
import { useBenchSession } from './use-bench';

const MOST_SEGMENTS = 3;
const LONGEST_SEGMENT = 18;

/** Which blank is in view, where there are several kinds. */
export const BlankPicker = memo(function BlankPicker({
  evaluation,
  blankIndex,
}: {
  evaluation: Evaluation;
  blankIndex: number;
}) {
  const { store } = useBenchSession();
  const { blanks } = evaluation;
  const options = blanks.map((blank) => ({
    id: blank.templateId,
    label: blank.label,
    about: `${blank.count} to make`,
  }));
  const shown = options[blankIndex];
  if (options.length < 2 || shown === undefined) return null;
  const choose = (id: string): void => store.setState({ blankId: id });
  if (options.length <= MOST_SEGMENTS && options.every(({ label }) => label.length <= LONGEST_SEGMENT)) {
    return (
      <div className="bench-blanks">
        <Segments label="Blank in view" options={options} value={shown.id} onChange={choose} />
      </div>
    );
  }
  const step = (by: number): void => {
    const next = options[(blankIndex + by + options.length) % options.length];
    if (next !== undefined) choose(next.id);
  };
  return (
    <div className="bench-blanks">
      <IconButton icon="left" label="Blank before" onPress={() => step(-1)} />
      <SelectField label="Blank in view" hideLabel options={options} value={shown.id} onChange={choose} />
      <IconButton icon="right" label="Blank after" onPress={() => step(1)} />
    </div>
  );
});
