import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { Root } from './shell/root';
import './ui/tokens.css';
import './ui/base.css';
import './ui/controls.css';
import './ui/overlays.css';
import './ui/drawing.css';
import './shell/shell.css';
import './panels/panels.css';
import './panels/parts.css';
import './order/order.css';
import './sheet/sheet.css';
import './shop/shop.css';
import './import/import.css';

const element = document.getElementById('root');
if (element === null) throw new Error('The page has no root.');

createRoot(element).render(
  <StrictMode>
    <Root />
  </StrictMode>,
);
