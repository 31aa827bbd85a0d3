import { useEffect } from 'react';
import { useApp, useView } from '../state/hooks';
import type { Notice } from '../state/view';
import { IconButton } from '../ui/button';
import { SeverityMark } from '../ui/icon';

const DONE_STAYS_MS = 6000;

/** What was done passes by itself; a problem stays until it is closed. */
export function Notices() {
  const notices = useView((view) => view.notices);
  return (
    <div className="notices" role="log" aria-live="polite" aria-label="Messages">
      {notices.map((notice) => (
        <NoticeLine key={notice.id} notice={notice} />
      ))}
    </div>
  );
}

function NoticeLine({ notice }: { notice: Notice }) {
  const { view } = useApp();
  useEffect(() => {
    if (notice.tone !== 'done') return;
    const timer = window.setTimeout(() => view.dismiss(notice.id), DONE_STAYS_MS);
    return () => window.clearTimeout(timer);
  }, [notice, view]);
  return (
    <div className={`notice is-${notice.tone}`}>
      <SeverityMark severity={notice.tone === 'problem' ? 'stop' : 'note'} />
      <p>{notice.sentence}</p>
      <IconButton icon="close" label="Close this message" onPress={() => view.dismiss(notice.id)} />
    </div>
  );
}
