import type { PaneName } from './panes';

export const PANE_TITLES: Readonly<Record<PaneName, string>> = {
  elevation: 'Elevation along X',
  plan: 'Plan view',
  section: 'Section A–A',
  stack: 'Height stack',
};
