import type { ReactNode } from 'react';
import { Button } from './button';
import { Dialog } from './dialog';

export interface Choice<A> {
  readonly label: string;
  readonly answer: A;
  /** The one that Enter takes is primary; one that gives something up is marked as a danger. */
  readonly look?: 'primary' | 'danger';
}

export interface ChoiceDialogProps<A> {
  readonly title: string;
  /** What is at stake. */
  readonly children: ReactNode;
  /** In the order of the buttons. */
  readonly choices: readonly Choice<A>[];
  readonly onAnswer: (answer: A) => void;
  readonly onClose: () => void;
}

/** A question with a button for each answer; it waits until one is given. */
export function ChoiceDialog<A>({ title, children, choices, onAnswer, onClose }: ChoiceDialogProps<A>) {
  const buttons = choices.map(({ label, answer, look }) => (
    <Button
      key={label}
      {...(look === undefined ? {} : { look })}
      autoFocus={look === 'primary'}
      onPress={() => onAnswer(answer)}
    >
      {label}
    </Button>
  ));
  return (
    <Dialog title={title} onClose={onClose} isAlert footer={buttons}>
      <p>{children}</p>
    </Dialog>
  );
}
