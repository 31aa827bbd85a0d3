import { memo } from 'react';
import { BenchView } from '../bench/bench-view';
import { FindingsPanel } from '../panels/findings-panel';
import { SetupPanel } from '../panels/setup-panel';
import { useApp, usePlanFact, useView } from '../state/hooks';
import { IconButton } from '../ui/button';
import { Calm } from './calm';
import { AfterFirstPicture } from './first-picture';
import { FiveSteps } from './five-steps';
import { Guarded } from './guarded';
import { useOnePanelWhenNarrow } from './one-panel';

// Kept from rendering with the page, which follows the plan on every frame of a drag.
const CalmSetup = memo(() => (
  <Calm>
    <SetupPanel />
  </Calm>
));
const CalmFindings = memo(() => (
  <Calm>
    <FindingsPanel />
  </Calm>
));

/** The Bench with its side panels: what is decided on the left, what was found on the right. */
export function BenchPage() {
  const { view } = useApp();
  useOnePanelWhenNarrow();
  const leftOpen = useView((state) => state.leftOpen);
  const rightOpen = useView((state) => state.rightOpen);
  const isEmpty = usePlanFact((plan) => plan.parts.length === 0);
  return (
    <div className="bench-page">
      <aside className={`side-panel is-left${leftOpen ? '' : ' is-folded'}`} aria-label="Setup">
        <header className="side-head">
          {leftOpen && <h2>Setup</h2>}
          <IconButton
            icon="panelLeft"
            label={leftOpen ? 'Fold the setup panel' : 'Unfold the setup panel'}
            aria-expanded={leftOpen}
            onPress={() => view.store.setState({ leftOpen: !leftOpen })}
          />
        </header>
        {leftOpen && (
          <div className="side-body">
            <AfterFirstPicture>
              <Guarded name="The setup panel">
                <CalmSetup />
              </Guarded>
            </AfterFirstPicture>
          </div>
        )}
      </aside>
      <div className="bench-centre">{isEmpty ? <FiveSteps /> : <BenchView />}</div>
      <aside className={`side-panel is-right${rightOpen ? '' : ' is-folded'}`} aria-label="Findings">
        <header className="side-head">
          {rightOpen && <h2>Findings</h2>}
          <IconButton
            icon="panelRight"
            label={rightOpen ? 'Fold the findings panel' : 'Unfold the findings panel'}
            aria-expanded={rightOpen}
            onPress={() => view.store.setState({ rightOpen: !rightOpen })}
          />
        </header>
        {rightOpen && (
          <div className="side-body">
            <AfterFirstPicture>
              <Guarded name="The findings panel">
                <CalmFindings />
              </Guarded>
            </AfterFirstPicture>
          </div>
        )}
      </aside>
    </div>
  );
}
