import { CAUTIONS } from '../../shared/findings/cautions';
import { useApp } from '../state/hooks';
import { Dialog } from '../ui/dialog';

const STEPS: readonly { title: string; text: string }[] = [
  {
    title: 'Parts',
    text: 'List what is to be made: length along the jaws, height as it stands, thickness across. Add bosses, bores and the places where no tab may stand.',
  },
  {
    title: 'Bench',
    text: 'Choose metal and bar, vises and jaws, cutter and rib. Drag parts, vises, the shelf and the tabs; every figure follows. A small A marks what the planner decides; typing over it pins your own value, Alt+P gives it back.',
  },
  {
    title: 'Order',
    text: 'See what to buy, how each bar is sawn, what is left, and every bar on offer side by side: what it costs and how much grip it leaves. Compare sets any two beside each other, or the plan as it was.',
  },
  {
    title: 'Sheet',
    text: 'Fill in what only you know, look the pages over, then print or export them. Measure the test square before you trust the scale.',
  },
  {
    title: 'Shop',
    text: 'Enter your own vises, jaws, parallels, cutters, saws, prices and house rules. What comes with the program is typical: measure yours.',
  },
];

const KEYS: readonly (readonly [string, string])[] = [
  ['Ctrl K', 'every command'],
  ['Ctrl Z, Ctrl Shift Z', 'undo, redo'],
  ['Ctrl A', 'on the Bench: every part on the bar, or every vise'],
  ['Alt C', 'two variants side by side'],
  ['Alt 1 … Alt 5', 'the five views'],
  ['Alt P', 'switch a field between auto and pinned'],
  ['Enter, Esc', 'take what was typed, put back what was there'],
];

/** The guide on one page, the cautions first. */
export function GuideDialog({ onClose }: { onClose: () => void }) {
  const { start } = useApp();
  return (
    <Dialog title="Guide and cautions" onClose={onClose} size="large">
      <section className="cautions" aria-label="Cautions">
        <h3>Before any chip flies</h3>
        <ul>
          {CAUTIONS.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </section>
      <div className="guide-columns">
        <section aria-label="How a job goes">
          <h3>How a job goes</h3>
          <ol className="guide-steps">
            {STEPS.map((step) => (
              <li key={step.title}>
                <strong>{step.title}.</strong> {step.text}
              </li>
            ))}
          </ol>
        </section>
        <section aria-label="Reading the screen">
          <h3>Reading the screen</h3>
          <p>
            An octagon is a <strong>stop</strong>: the setup cannot work as planned. A triangle is a{' '}
            <strong>check</strong>: it may work, look again. A circle is a <strong>note</strong>. A figure under a
            finding carries its mark. Press any figure along the foot to see the rule, the formula and what went in.
          </p>
          <p>
            Lengths take <code>1-1/2</code>, <code>1½</code>, <code>38 mm</code>, <code>50 thou</code> or{' '}
            <code>1'6"</code>. Both units stand beside what you type.
          </p>
          <h3>Keys</h3>
          <dl className="guide-keys">
            {KEYS.map(([keys, what]) => (
              <div key={keys}>
                <dt>
                  <kbd>{keys}</kbd>
                </dt>
                <dd>{what}</dd>
              </div>
            ))}
          </dl>
        </section>
      </div>
      <p className="guide-version">Kerfgrip {start.version}. Nothing you plan leaves this computer.</p>
    </Dialog>
  );
}
