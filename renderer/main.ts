import { getHost } from './state/host';
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

const element = document.getElementById('root');
if (element === null) throw new Error('The page has no root.');

// The host reads its files while the page's own code is fetched and compiled.
const host = getHost();
const first = host.call('start', {});
void import('./page').then(({ showPage }) => showPage(element, host, first));
