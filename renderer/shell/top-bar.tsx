import { memo } from 'react';
import { Button, Tab, TabList } from 'react-aria-components';
import type { Severity } from '../../shared/findings/finding';
import { formatShortcut, getActionLabel, isActionEnabled } from '../state/actions';
import { useApp, useEvaluation, useFiles, useHistory, usePlanFact, useUnsaved, useView } from '../state/hooks';
import { TABS, type Tab as TabId, type Theme } from '../state/view';
import { IconButton } from '../ui/button';
import { type IconName, SEVERITY_WORDS, SeverityMark } from '../ui/icon';
import { Segments } from '../ui/toggle';
import { MainMenu } from './main-menu';

const TAB_LABELS: Readonly<Record<TabId, string>> = {
  parts: 'Parts',
  bench: 'Bench',
  order: 'Order',
  sheet: 'Sheet',
  shop: 'Shop',
};

export function TopBar() {
  return (
    <header className="top-bar">
      <div className="top-left">
        <MainMenu />
        <PlanTitle />
      </div>
      <TabList aria-label="Views" className="top-tabs">
        {TABS.map((tab) => (
          <Tab key={tab} id={tab} className="top-tab">
            {TAB_LABELS[tab]}
          </Tab>
        ))}
      </TabList>
      <div className="top-right">
        <StepButtons />
        <UnitsSwitch />
        <FindingCounts />
        <ThemeButton />
      </div>
    </header>
  );
}

function PlanTitle() {
  const name = usePlanFact((plan) => plan.name);
  const revision = usePlanFact((plan) => plan.revision);
  const unsaved = useUnsaved();
  const { file } = useFiles();
  const onFile = file === null ? 'not on file' : file.readOnly ? 'read only' : 'saved';
  const state = unsaved ? (file?.readOnly === true ? 'not saved, file is read only' : 'not saved') : onFile;
  const where = file === null ? 'This plan has no file yet.' : `${file.name} in ${file.folder}`;
  return (
    <div className="plan-title">
      <h1>{name === '' ? 'Unnamed plan' : name}</h1>
      <p title={where}>
        {revision === '' ? '' : `rev ${revision} · `}
        <span className={unsaved ? 'is-unsaved' : ''} role="status" aria-label="Saved state">
          {unsaved && <span aria-hidden="true">● </span>}
          {state}
        </span>
      </p>
    </div>
  );
}

function StepButtons() {
  const app = useApp();
  // Read so that the buttons follow the history.
  useHistory();
  return (
    <div className="button-group">
      {(['edit.undo', 'edit.redo'] as const).map((id) => {
        const action = app.actions.find(id);
        if (action === undefined) return null;
        return (
          <IconButton
            key={id}
            icon={id === 'edit.undo' ? 'undo' : 'redo'}
            label={getActionLabel(action, app)}
            hint={formatShortcut(action.shortcuts?.[0] ?? '', app.onMac)}
            isDisabled={!isActionEnabled(action, app)}
            onPress={() => action.perform(app)}
          />
        );
      })}
    </div>
  );
}

function UnitsSwitch() {
  const { documents } = useApp();
  const units = usePlanFact((plan) => plan.units);
  return (
    <Segments
      label="Units"
      options={[
        { id: 'in', label: 'in' },
        { id: 'mm', label: 'mm' },
      ]}
      value={units}
      onChange={(next) =>
        documents.edit(next === 'in' ? 'show inches' : 'show millimetres', (plan) => ({ ...plan, units: next }))
      }
    />
  );
}

function FindingCounts() {
  const { findings } = useEvaluation();
  const open = findings.filter((finding) => !finding.accepted);
  const getCount = (severity: Severity): number => open.filter((finding) => finding.severity === severity).length;
  return <CountsButton stop={getCount('stop')} check={getCount('check')} note={getCount('note')} />;
}

const CountsButton = memo(function CountsButton(counts: Readonly<Record<Severity, number>>) {
  const { view } = useApp();
  return (
    <Button
      className="finding-counts"
      onPress={() => {
        view.show('bench');
        view.store.setState({ rightOpen: true });
      }}
    >
      {(['stop', 'check', 'note'] as const).map((severity) => {
        const count = counts[severity];
        const words = SEVERITY_WORDS[severity];
        return (
          <span key={severity} className={`finding-count is-${severity}${count === 0 ? ' is-none' : ''}`}>
            <SeverityMark severity={severity} /> <span data-count={severity}>{count}</span>{' '}
            <span className="finding-count-word">{count === 1 ? words.one : words.many}</span>
          </span>
        );
      })}
    </Button>
  );
});

const THEME_ICONS: Readonly<Record<Theme, IconName>> = { system: 'system', light: 'sun', dark: 'moon' };
const THEME_LABELS: Readonly<Record<Theme, string>> = {
  system: 'Theme: as the system',
  light: 'Theme: light',
  dark: 'Theme: dark',
};

function ThemeButton() {
  const { view } = useApp();
  const theme = useView((state) => state.theme);
  return <IconButton icon={THEME_ICONS[theme]} label={THEME_LABELS[theme]} onPress={view.nextTheme} />;
}
