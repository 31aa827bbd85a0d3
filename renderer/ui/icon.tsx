import type { Severity } from '../../shared/findings/finding';

const PATHS = {
  menu: 'M2 4h12M2 8h12M2 12h12',
  undo: 'M6 3 3 6l3 3M3 6h6.5a3.5 3.5 0 0 1 0 7H6',
  redo: 'm10 3 3 3-3 3M13 6H6.500a3.5 3.5 0 0 0 0 7H10',
  plus: 'M8 3v10M3 8h10',
  minus: 'M3 8h10',
  close: 'm4 4 8 8M12 4l-8 8',
  down: 'm4 6 4 4 4-4',
  right: 'm6 4 4 4-4 4',
  left: 'm10 4-4 4 4 4',
  up: 'm4 10 4-4 4 4',
  trash: 'M3 4.500h10M6.500 4V2.500h3V4M4.500 4.500l.6 9h5.800l.6-9',
  copy: 'M5.500 5.500v-3h8v8h-3M2.500 5.500h8v8h-8z',
  mirror: 'M8 2v12M6 4.500 2 12h4zM10 4.500l4 7.500h-4z',
  pin: 'M5.500 2.500h5l-.8 4.300 2.300 2.200h-8l2.300-2.200zM8 9v4.500',
  compare: 'M2 3h4.500v10H2zM9.500 3H14v10H9.500zM8 1v14',
  sun: 'M8 5.200a2.800 2.800 0 1 1 0 5.600 2.800 2.800 0 0 1 0-5.600zM8 1v1.800M8 13.200V15M1 8h1.800M13.200 8H15M3 3l1.300 1.300M11.700 11.700 13 13M13 3l-1.300 1.300M4.300 11.700 3 13',
  moon: 'M13 9.500A5.500 5.500 0 1 1 6.500 3a4.500 4.500 0 0 0 6.500 6.500z',
  system: 'M2 3h12v8H2zM6 14h4M8 11v3',
  folder: 'M1.500 4h4.500l1.500 1.500h7v7h-13z',
  file: 'M4 1.500h5l3 3v10H4zM9 1.500v3h3',
  print: 'M4.500 6V2h7v4M4.500 12h-2V6h11v6h-2M4.500 10h7v4h-7z',
  panelLeft: 'M1.500 3h13v10h-13zM5.500 3v10',
  panelRight: 'M1.500 3h13v10h-13zM10.500 3v10',
  guide:
    'M8 14.500a6.500 6.500 0 1 1 0-13 6.500 6.500 0 0 1 0 13zM6 6.200a2 2 0 1 1 3 1.700c-.7.4-1 .8-1 1.600M8 11.200v.6',
} as const;

export type IconName = keyof typeof PATHS;

/** A line drawing of 16 units; for show only, what it means is said by the text beside it or the button's name. */
export function Icon({ name }: { name: IconName }) {
  return (
    <svg className="icon" viewBox="0 0 16 16" aria-hidden="true">
      <path d={PATHS[name]} />
    </svg>
  );
}

const SEVERITY_SHAPES: Record<Severity, { outline: string; sign: string }> = {
  stop: {
    outline: 'M5.300 1.500h5.400l3.800 3.800v5.400l-3.800 3.800H5.300l-3.800-3.800V5.300z',
    sign: 'M4.800 8h6.400',
  },
  check: { outline: 'M8 1.800 15 14H1z', sign: 'M8 6.200v4M8 11.600v.8' },
  note: { outline: 'M8 14.300a6.300 6.300 0 1 1 0-12.600 6.300 6.300 0 0 1 0 12.600z', sign: 'M8 7.200v4M8 4.600v.8' },
};

/** Octagon, triangle, circle: the shape says the severity before the colour does. */
export function SeverityMark({ severity }: { severity: Severity }) {
  const shape = SEVERITY_SHAPES[severity];
  return (
    <svg className={`severity-mark is-${severity}`} viewBox="0 0 16 16" aria-hidden="true">
      <path className="severity-outline" d={shape.outline} />
      <path className="severity-sign" d={shape.sign} />
    </svg>
  );
}

export const SEVERITY_WORDS: Record<Severity, { one: string; many: string }> = {
  stop: { one: 'stop', many: 'stops' },
  check: { one: 'check', many: 'checks' },
  note: { one: 'note', many: 'notes' },
};
