import type { JournalEntry } from '../../shared/contract/host';
import type { Questions } from '../state/dialogs';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';

export function RestoreDialog(props: {
  entries: readonly JournalEntry[];
  onAnswer: (answer: Questions['restore']['answer']) => void;
}) {
  return (
    <Dialog
      title="Work that was not saved"
      onClose={() => props.onAnswer('later')}
      isAlert
      footer={
        <>
          <Button look="danger" onPress={() => props.onAnswer('discard')}>
            Throw it away
          </Button>
          <Button onPress={() => props.onAnswer('later')}>Not now</Button>
        </>
      }
    >
      <p>The planner ended last time before this was saved.</p>
      <ul className="plain-list">
        {props.entries.map((entry, index) => (
          <li key={entry.id} className="restore-line">
            <span>
              <strong>{entry.plan.name === '' ? 'Unnamed plan' : entry.plan.name}</strong>
              <small>
                {entry.fileName === '' ? 'never saved' : entry.fileName}, kept {formatMoment(entry.savedAt)}
              </small>
              {entry.differs.length > 0 && (
                <small>
                  {entry.fileName === '' ? 'Holds ' : 'Differs: '}
                  {entry.differs.join('; ')}
                </small>
              )}
            </span>
            <Button look="primary" onPress={() => props.onAnswer({ restore: index })}>
              Restore
            </Button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}

/** In the user's own time; the host keeps the moment in UTC. */
function formatMoment(iso: string): string {
  const moment = new Date(iso);
  return Number.isNaN(moment.getTime())
    ? iso
    : moment.toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
}
