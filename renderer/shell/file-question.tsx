import type { OpenQuestion } from '../state/dialogs';
import { ChoiceDialog } from '../ui/choice-dialog';

type FileQuestionKind = 'unsaved' | 'fileChanged' | 'newerPlan' | 'shopChanged' | 'fileExists';

/** Asks before something that is kept, or is not yet kept, would be lost. */
export function FileQuestion({
  question,
  onClose,
}: {
  question: Extract<OpenQuestion, { kind: FileQuestionKind }>;
  onClose: () => void;
}) {
  switch (question.kind) {
    case 'unsaved':
      return (
        <ChoiceDialog
          title="Save the changes first?"
          onClose={onClose}
          onAnswer={question.answer}
          choices={[
            { label: 'Discard changes', answer: 'discard', look: 'danger' },
            { label: 'Cancel', answer: 'cancel' },
            { label: 'Save', answer: 'save', look: 'primary' },
          ]}
        >
          {question.ask.planName === '' ? 'This plan' : `“${question.ask.planName}”`} has changes that are not on file{' '}
          {question.ask.about}.
        </ChoiceDialog>
      );
    case 'fileChanged': {
      const { reason, sentence, fileName } = question.ask;
      return (
        <ChoiceDialog
          title={reason === 'changed' ? 'The file has changed on disk' : 'Someone else has this plan open'}
          onClose={onClose}
          onAnswer={question.answer}
          choices={[
            { label: 'Overwrite it', answer: 'overwrite', look: 'danger' },
            { label: 'Cancel', answer: 'cancel' },
            { label: 'Save under another name…', answer: 'saveAs', look: 'primary' },
          ]}
        >
          {sentence}{' '}
          {reason === 'changed'
            ? 'Someone else, or another window, has written to it. Saving under another name keeps both.'
            : `What you write to ${fileName} may be written over by them, or theirs by you. Saving under another name keeps both.`}
        </ChoiceDialog>
      );
    }
    case 'newerPlan':
      return (
        <ChoiceDialog
          title="This plan is of a newer version"
          onClose={onClose}
          onAnswer={question.answer}
          choices={[
            { label: 'Cancel', answer: 'cancel' },
            { label: 'Save under another name…', answer: 'saveAs', look: 'primary' },
          ]}
        >
          {question.ask.fileName} was written by a newer Kerfgrip and stays as it is. What you save under another name
          lacks whatever this version does not know, and figures may differ for that.
        </ChoiceDialog>
      );
    case 'shopChanged':
      return (
        <ChoiceDialog
          title="Another window has changed the shop"
          onClose={onClose}
          onAnswer={question.answer}
          choices={[
            { label: 'Not now', answer: 'later' },
            { label: 'Take the other, drop mine', answer: 'take', look: 'danger' },
            { label: 'Keep both…', answer: 'keepBoth', look: 'primary' },
          ]}
        >
          The shop library on disk is not the one this window read, so it was not written over. Keeping both writes this
          window’s shop to a file of its own and then takes up the other.
        </ChoiceDialog>
      );
    case 'fileExists':
      return (
        <ChoiceDialog
          title="Replace the file?"
          onClose={onClose}
          onAnswer={question.answer}
          choices={[
            { label: 'Replace it', answer: 'replace', look: 'danger' },
            { label: 'Choose another name', answer: 'cancel', look: 'primary' },
          ]}
        >
          A file named {question.ask.fileName} is already there.
        </ChoiceDialog>
      );
    default:
      return question satisfies never;
  }
}
