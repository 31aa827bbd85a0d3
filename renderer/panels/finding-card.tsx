import { memo, useState } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import { applyFix } from '../../shared/findings/apply-fix';
import type { Finding, Fix } from '../../shared/findings/finding';
import { formatQuantity } from '../../shared/units/quantity';
import { getAcceptance } from '../state/findings';
import { useApp, usePlan, useShop, useView } from '../state/hooks';
import { getStepWords } from '../state/step-words';
import { isSameFeature } from '../state/view';
import { Button, WithTooltip } from '../ui/button';
import { SEVERITY_WORDS } from '../ui/icon';
import { FixPreview } from './fix-preview';

interface CardProps {
  readonly finding: Finding;
}

/** Each evaluation states its findings anew; a card is drawn again only when its own says something else. */
const saysTheSame = (one: CardProps, other: CardProps): boolean =>
  one.finding === other.finding ||
  (one.finding.sentence === other.finding.sentence && JSON.stringify(one.finding) === JSON.stringify(other.finding));

/** One finding: its sentence and its fixes; pressed, it points at the Bench and shows its numbers. */
export const FindingCard = memo(function FindingCard({ finding }: CardProps) {
  const { view } = useApp();
  const pointed = useView((state) => state.pointedAt);
  const [isOpen, setOpen] = useState(false);
  const isPointed = finding.features.some((feature) => pointed.some((other) => isSameFeature(feature, other)));
  const point = (): void => view.pointAt(finding.features);
  const leave = (): void => view.pointAt([]);
  const toggle = (): void => {
    setOpen(!isOpen);
    if (!isOpen && finding.features.length > 0) view.select(finding.features);
  };
  return (
    <li
      className={`finding is-${finding.severity}${isPointed ? ' is-pointed' : ''}`}
      data-finding={finding.code}
      onPointerEnter={point}
      onPointerLeave={leave}
      onFocus={point}
      onBlur={leave}
    >
      <AriaButton className="finding-sentence" aria-expanded={isOpen} onPress={toggle}>
        <span className="visually-hidden">{SEVERITY_WORDS[finding.severity].one}: </span>
        {finding.sentence}
      </AriaButton>
      {isOpen && <FindingDetail finding={finding} />}
      {!finding.accepted && finding.fixes.length > 0 && (
        <div className="finding-buttons">
          {finding.fixes.map((fix) => (
            <FixButton key={fix.label} fix={fix} />
          ))}
        </div>
      )}
    </li>
  );
}, saysTheSame);

function FixButton({ fix }: { fix: Fix }) {
  const { documents } = useApp();
  const step = getStepWords(fix.label);
  return (
    <WithTooltip tip={<FixPreview fix={fix} />} placement="left">
      <Button look="quiet" className="fix-button" onPress={() => documents.edit(step, (plan) => applyFix(plan, fix))}>
        {fix.label}
      </Button>
    </WithTooltip>
  );
}

function FindingDetail({ finding }: { finding: Finding }) {
  const { documents, dialogs, view, start } = useApp();
  const plan = usePlan();
  const { currency } = useShop();
  const acceptance = plan.accepted.find((entry) => entry.code === finding.key);
  const accept = async (): Promise<void> => {
    const by = await dialogs.ask('acceptFinding', { sentence: finding.sentence });
    if (by !== null) documents.edit('accept a finding', (before) => getAcceptance(before, finding, by, start.today));
  };
  const takeBack = (): void =>
    documents.edit('take back an acceptance', (before) => ({
      ...before,
      accepted: before.accepted.filter((entry) => entry.code !== finding.key),
    }));
  return (
    <>
      {finding.detail !== '' && <p className="finding-detail">{finding.detail}</p>}
      {finding.numbers.length > 0 && (
        <dl className="finding-numbers">
          {finding.numbers.map((number) => (
            <div key={`${number.name}:${number.value}`}>
              <dt>{number.name}</dt>
              <dd>
                {number.kind === 'text'
                  ? String(number.value)
                  : formatQuantity(number.value, number.kind, plan.units, { currency })}
              </dd>
            </div>
          ))}
        </dl>
      )}
      {finding.accepted && acceptance !== undefined && (
        <p className="finding-detail">
          accepted by {acceptance.by}, {acceptance.date}
        </p>
      )}
      <div className="finding-buttons">
        {finding.features.length > 0 && (
          <Button
            look="quiet"
            className="small-button"
            onPress={() => {
              view.show('bench');
              view.select(finding.features);
            }}
          >
            Show on the Bench
          </Button>
        )}
        {!finding.accepted && finding.severity === 'check' && (
          <Button look="quiet" className="small-button" onPress={() => void accept()}>
            Accept…
          </Button>
        )}
        {finding.accepted && (
          <Button look="quiet" className="small-button" onPress={takeBack}>
            Take back
          </Button>
        )}
      </div>
    </>
  );
}
