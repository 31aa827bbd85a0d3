import { Button, Dialog, DialogTrigger, Popover, Tooltip, TooltipTrigger } from 'react-aria-components';
import type { Decided } from '../../shared/engine/figure';
import type { Choice } from '../../shared/model/choice';
import { isPinned } from '../../shared/model/choice';
import { getAtPath, type Path, setAtPath } from '../../shared/model/edit';
import type { EntryReader } from '../state/entry';
import { useApp, usePlan, useShop } from '../state/hooks';
import { getStepWords } from '../state/step-words';
import { Button as PlainButton } from '../ui/button';
import { Icon } from '../ui/icon';
import { NumberField } from '../ui/number-field';
import { type Option, SelectField } from '../ui/select-field';
import { WhyView } from '../ui/why';

interface DecisionProps<T> {
  readonly label: string;
  /** Where the choice stands in the plan. */
  readonly path: Path;
  /** What the engine says; null when it could not come to it. */
  readonly decided: Decided<T> | null;
}

/** A number that is left to the engine or pinned; typing pins it, Alt+P switches, emptying the field gives it back. */
export function DecisionField(props: DecisionProps<number> & { readonly reader: EntryReader }) {
  const { label, decided, reader } = props;
  const control = useChoice(props, (value) => withUnit(reader, value));
  return (
    <div className="decision-row">
      <NumberField
        label={label}
        reader={reader}
        value={control.value ?? null}
        isAuto={!control.pinned}
        placeholder="—"
        onCommit={control.pin}
        onClear={control.release}
        onToggleKey={control.toggle}
      />
      <ChoiceMark {...control} label={label} decided={decided} show={(value) => withUnit(reader, value)} />
    </div>
  );
}

/** A choice among names that is left to the engine or pinned. */
export function DecisionSelect<T extends string>(props: DecisionProps<T> & { readonly options: readonly Option<T>[] }) {
  const { label, decided, options } = props;
  const nameOf = (id: T): string => options.find((option) => option.id === id)?.label ?? id;
  const control = useChoice(props, nameOf);
  return (
    <div className="decision-row">
      <SelectField
        label={label}
        options={options}
        value={control.value ?? null}
        isAuto={!control.pinned}
        placeholder="—"
        onChange={control.pin}
        onToggleKey={control.toggle}
      />
      <ChoiceMark {...control} label={label} decided={decided} show={nameOf} />
    </div>
  );
}

export interface ChoiceControl<T> {
  readonly pinned: boolean;
  readonly value: T | undefined;
  readonly pin: (value: T) => void;
  readonly release: () => void;
  readonly toggle: () => void;
}

/** How a choice of the plan is read and switched, for fields that are not a plain number or list. */
export function useChoice<T>(props: DecisionProps<T>, show: (value: T) => string): ChoiceControl<T> {
  const { documents } = useApp();
  const plan = usePlan();
  const choice = (getAtPath(plan, props.path) ?? 'auto') as Choice<T>;
  const pinned = isPinned(choice);
  const value = pinned ? choice.pinned : props.decided?.value;
  const name = getStepWords(props.label);
  const pin = (next: T): void =>
    documents.edit(`pin ${name} at ${show(next)}`, (before) => setAtPath(before, props.path, { pinned: next }));
  const release = (): void =>
    documents.edit(`leave ${name} to auto`, (before) => setAtPath(before, props.path, 'auto'));
  const toggle = (): void => {
    if (pinned) release();
    else if (value !== undefined) pin(value);
  };
  return { pinned, value, pin, release, toggle };
}

interface MarkProps<T> extends ChoiceControl<T> {
  readonly label: string;
  readonly decided: Decided<T> | null;
  readonly show: (value: T) => string;
}

/** The quiet A or the pin beside a field: hover for the rule, press for the workings and the switch. */
export function ChoiceMark<T>(props: MarkProps<T>) {
  const { label, pinned, decided, show, value } = props;
  const plan = usePlan();
  const shop = useShop();
  const auto = decided === null ? '—' : show(decided.auto);
  const state = pinned ? `pinned; auto would take ${auto}` : 'auto';
  return (
    <DialogTrigger>
      <TooltipTrigger delay={400} closeDelay={100}>
        <Button className={`choice-mark ${pinned ? 'is-pinned' : 'is-auto'}`} aria-label={`${label}: ${state}. Why?`}>
          {pinned ? <Icon name="pin" /> : 'A'}
        </Button>
        <Tooltip className="tooltip" offset={6}>
          {pinned ? `Pinned. Auto would take ${auto}.` : (decided?.why.rule ?? 'Nothing to decide yet.')}
        </Tooltip>
      </TooltipTrigger>
      <Popover className="popover why-popover" placement="right top">
        <Dialog aria-label={`Why ${label}`}>
          {({ close }) => (
            <>
              {decided === null ? (
                <p className="why-rule">Nothing decides this yet: see the findings.</p>
              ) : (
                <WhyView
                  title={`${label}, auto`}
                  value={auto}
                  why={decided.why}
                  units={plan.units}
                  currency={shop.currency}
                />
              )}
              <div className="popover-buttons">
                <PlainButton
                  isDisabled={!pinned && value === undefined}
                  onPress={() => {
                    props.toggle();
                    close();
                  }}
                >
                  {pinned ? `Leave it to auto (${auto})` : 'Pin this value'}
                </PlainButton>
                <span className="key-hint">Alt+P in the field</span>
              </div>
            </>
          )}
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}

function withUnit(reader: EntryReader, value: number): string {
  return reader.unit === '' ? reader.show(value) : `${reader.show(value)} ${reader.unit}`;
}
