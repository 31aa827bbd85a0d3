import type { Arranged } from './bench/bench-store';
import { getHost } from './state/host';
import { showStill } from './still/show-still';
import './ui/tokens.css';
import './ui/base.css';
import './ui/controls.css';
import './ui/overlays.css';
import './ui/drawing.css';
import './shell/shell.css';
import './shell/workings.css';
import './bench/bench.css';
import './panels/panels.css';
import './panels/parts.css';
import './order/order.css';
import './sheet/sheet.css';
import './shop/shop.css';
import './import/import.css';
import './compare/compare.css';

/** A window that is hidden paints nothing, and is waited for no longer than this, ms. */
const LONGEST_PAINT_MS = 100;

// The host answers while the page's own code is fetched; what that comes to is drawn before there is code to work it.
async function begin(root: HTMLElement): Promise<void> {
  const host = getHost();
  const reply = await host.call('start', {});
  const arranged = reply.ok ? tryStill(() => showStill(root, reply.value)) : null;
  if (arranged !== null) await waitForPaint();
  const { showPage } = await import('./page');
  showPage(root, host, reply, arranged);
}

/** The still picture is a courtesy: a fault in it is for the page itself to come upon, where it is told of. */
function tryStill(show: () => Arranged | null): Arranged | null {
  try {
    return show();
  } catch {
    return null;
  }
}

function waitForPaint(): Promise<void> {
  return new Promise((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve));
    setTimeout(resolve, LONGEST_PAINT_MS);
  });
}

const root = document.getElementById('root');
if (root === null) throw new Error('The page has no root.');
void begin(root);
