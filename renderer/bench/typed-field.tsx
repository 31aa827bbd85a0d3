import { useEffect, useRef } from 'react';
import { echoBoth } from '../../shared/units/format';
import { parseLength } from '../../shared/units/parse-length';
import { usePlan } from '../state/hooks';
import type { PaneName, Rect } from './panes';
import { useBench, useBenchSession } from './use-bench';

const ROOM_PX = 210;

/** The small field that opens when a number is typed for a thing on the Bench. */
export function TypedField({ pane, rect }: { pane: PaneName; rect: Rect }) {
  const typed = useBench((state) => (state.typed?.pane === pane ? state.typed : null));
  if (typed === null) return null;
  return <OpenField key={typed.mover.name} rect={rect} pane={pane} />;
}

function OpenField({ rect, pane }: { pane: PaneName; rect: Rect }) {
  const typed = useBench((state) => (state.typed?.pane === pane ? state.typed : null));
  const { typing } = useBenchSession();
  const { units } = usePlan();
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    const element = input.current;
    const before = document.activeElement;
    element?.focus();
    element?.setSelectionRange(element.value.length, element.value.length);
    return () => {
      if (before instanceof HTMLElement && before.isConnected) before.focus({ preventScroll: true });
    };
  }, []);
  if (typed === null) return null;
  const { mover, text, refusal, at } = typed;
  const parsed = parseLength(text, units, { allowNegative: mover.least < 0 });
  const style = {
    left: Math.max(4, Math.min(at.x, rect.width - ROOM_PX)),
    top: Math.max(4, Math.min(at.y + 10, rect.height - 76)),
  };
  return (
    <div className="bench-typed bench-live" style={style}>
      <label className="bench-typed-label">
        {mover.name}, {mover.measure}
        <span className="bench-typed-box">
          <input
            ref={input}
            className="input is-number"
            value={text}
            autoComplete="off"
            spellCheck={false}
            aria-invalid={refusal !== ''}
            onChange={(event) => typing.change(event.target.value)}
            onBlur={() => typing.cancel()}
            onKeyDown={(event) => {
              event.stopPropagation();
              if (event.key === 'Enter') typing.commit();
              else if (event.key === 'Escape') typing.cancel();
            }}
          />
          <span className="field-unit">{units}</span>
        </span>
      </label>
      <span className={refusal === '' ? 'bench-typed-echo' : 'bench-typed-refusal'} role="status">
        {refusal !== '' ? refusal : parsed.ok ? `= ${echoBoth(parsed.mm)}` : 'Enter takes it, Esc leaves it'}
      </span>
    </div>
  );
}
