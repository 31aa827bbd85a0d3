import { createEvaluateWorker } from './bench/create-evaluate-worker';
import { computeFirstFigures } from './bench/first-figures';
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

const element = document.getElementById('root');
if (element === null) throw new Error('The page has no root.');

// The host reads its files, and a worker works out the first figures, while the page's own code is fetched and compiled.
const host = getHost();
const reply = host.call('start', {});
const figures = computeFirstFigures(reply, createEvaluateWorker());
void import('./page').then(({ showPage }) => showPage(element, host, { reply, figures }));
