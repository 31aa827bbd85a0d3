import { useState } from 'react';
import { useApp } from '../state/hooks';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { TextField } from '../ui/text-field';

/** Accepting a finding is signed: the sheet prints who took it on, with the numbers as they were. */
export function AcceptDialog(props: { sentence: string; onAnswer: (by: string | null) => void }) {
  const { start } = useApp();
  const [by, setBy] = useState(start.userName);
  return (
    <Dialog
      title="Accept this finding"
      onClose={() => props.onAnswer(null)}
      footer={
        <>
          <Button onPress={() => props.onAnswer(null)}>Cancel</Button>
          <Button look="primary" isDisabled={by.trim() === ''} onPress={() => props.onAnswer(by.trim())}>
            Accept
          </Button>
        </>
      }
    >
      <p className="quoted">{props.sentence}</p>
      <p>It stays on the sheet with your name and today’s date, and comes back if its numbers change.</p>
      <TextField label="Accepted by" value={by} onCommit={setBy} />
    </Dialog>
  );
}
