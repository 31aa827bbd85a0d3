import { getRootFlags } from '../../main/start/app-window';

/** Flags for the browser under test: it calls nowhere by itself and draws the same on every machine. */
export function getTestBrowserFlags(): string[] {
  return [
    ...getRootFlags(process.platform, process.getuid?.()),
    '--disable-quic',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--no-first-run',
    '--force-color-profile=srgb',
    '--font-render-hinting=none',
  ];
}
