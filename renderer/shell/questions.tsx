import { useStore } from 'zustand';
import { CompareDialog } from '../compare/compare-dialog';
import { ListDialog } from '../import/list-dialog';
import { MergeDialog } from '../import/merge-dialog';
import { OutlineDialog } from '../import/outline-dialog';
import { SaveViewDialog } from '../sheet/save-view-dialog';
import { dismissQuestion } from '../state/dialogs';
import { useApp } from '../state/hooks';
import { Button } from '../ui/button';
import { Dialog } from '../ui/dialog';
import { AcceptDialog } from './accept-dialog';
import { CommandList } from './command-list';
import { OpenDialog, SaveDialog } from './file-dialogs';
import { GuideDialog } from './guide-dialog';
import { RestoreDialog } from './restore-dialog';
import { WorkingsDialog } from './workings-dialog';

/** Whatever the page has to ask just now. */
export function Questions() {
  const { dialogs } = useApp();
  const question = useStore(dialogs.store, (state) => state.open);
  if (question === null) return null;
  const close = (): void => dismissQuestion(question);
  switch (question.kind) {
    case 'unsaved':
      return (
        <Dialog
          title="Save the changes first?"
          onClose={close}
          isAlert
          footer={
            <>
              <Button look="danger" onPress={() => question.answer('discard')}>
                Discard changes
              </Button>
              <Button onPress={close}>Cancel</Button>
              <Button look="primary" autoFocus onPress={() => question.answer('save')}>
                Save
              </Button>
            </>
          }
        >
          <p>
            {question.ask.planName === '' ? 'This plan' : `“${question.ask.planName}”`} has changes that are not on file{' '}
            {question.ask.about}.
          </p>
        </Dialog>
      );
    case 'fileChanged':
      return (
        <Dialog
          title={question.ask.reason === 'changed' ? 'The file has changed on disk' : 'Someone else has this plan open'}
          onClose={close}
          isAlert
          footer={
            <>
              <Button look="danger" onPress={() => question.answer('overwrite')}>
                Overwrite it
              </Button>
              <Button onPress={close}>Cancel</Button>
              <Button look="primary" autoFocus onPress={() => question.answer('saveAs')}>
                Save under another name…
              </Button>
            </>
          }
        >
          <p>
            {question.ask.sentence}{' '}
            {question.ask.reason === 'changed'
              ? 'Someone else, or another window, has written to it. Saving under another name keeps both.'
              : `What you write to ${question.ask.fileName} may be written over by them, or theirs by you. Saving under another name keeps both.`}
          </p>
        </Dialog>
      );
    case 'newerPlan':
      return (
        <Dialog
          title="This plan is of a newer version"
          onClose={close}
          isAlert
          footer={
            <>
              <Button onPress={close}>Cancel</Button>
              <Button look="primary" autoFocus onPress={() => question.answer('saveAs')}>
                Save under another name…
              </Button>
            </>
          }
        >
          <p>
            {question.ask.fileName} was written by a newer Kerfgrip and stays as it is. What you save under another name
            lacks whatever this version does not know, and figures may differ for that.
          </p>
        </Dialog>
      );
    case 'shopChanged':
      return (
        <Dialog
          title="Another window has changed the shop"
          onClose={close}
          isAlert
          footer={
            <>
              <Button onPress={close}>Not now</Button>
              <Button look="danger" onPress={() => question.answer('take')}>
                Take the other, drop mine
              </Button>
              <Button look="primary" autoFocus onPress={() => question.answer('keepBoth')}>
                Keep both…
              </Button>
            </>
          }
        >
          <p>
            The shop library on disk is not the one this window read, so it was not written over. Keeping both writes
            this window’s shop to a file of its own and then takes up the other.
          </p>
        </Dialog>
      );
    case 'fileExists':
      return (
        <Dialog
          title="Replace the file?"
          onClose={close}
          isAlert
          footer={
            <>
              <Button look="danger" onPress={() => question.answer('replace')}>
                Replace it
              </Button>
              <Button look="primary" autoFocus onPress={close}>
                Choose another name
              </Button>
            </>
          }
        >
          <p>A file named {question.ask.fileName} is already there.</p>
        </Dialog>
      );
    case 'openFile':
      return <OpenDialog show={question.ask.show} onAnswer={question.answer} />;
    case 'saveFile':
      return (
        <SaveDialog what={question.ask.what} suggestedName={question.ask.suggestedName} onAnswer={question.answer} />
      );
    case 'restore':
      return <RestoreDialog entries={question.ask.entries} onAnswer={question.answer} />;
    case 'acceptFinding':
      return <AcceptDialog sentence={question.ask.sentence} onAnswer={question.answer} />;
    case 'readOutline':
      return <OutlineDialog {...question.ask} onClose={close} />;
    case 'readList':
      return <ListDialog {...question.ask} onClose={close} />;
    case 'mergeShop':
      return <MergeDialog {...question.ask} onClose={close} />;
    case 'about':
      return <GuideDialog onClose={close} />;
    case 'commands':
      return <CommandList onClose={close} />;
    case 'workings':
      return <WorkingsDialog onClose={close} />;
    case 'compare':
      return <CompareDialog beside={question.ask.beside} onClose={close} />;
    case 'saveView':
      return <SaveViewDialog onClose={close} />;
    default:
      return question satisfies never;
  }
}
