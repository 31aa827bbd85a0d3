import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';

// The least that React can show, built as the planner is: what a start is measured against.
const root = document.getElementById('root');
if (root !== null) {
  createRoot(root).render(
    <StrictMode>
      <p data-drawn="">blank</p>
    </StrictMode>,
  );
}
