import { useStore } from 'zustand';
import { CompareDialog } from '../compare/compare-dialog';
import { ListDialog } from '../import/list-dialog';
import { MergeDialog } from '../import/merge-dialog';
import { OutlineDialog } from '../import/outline-dialog';
import { SaveViewDialog } from '../sheet/save-view-dialog';
import { dismissQuestion } from '../state/dialogs';
import { useApp } from '../state/hooks';
import { AcceptDialog } from './accept-dialog';
import { CommandList } from './command-list';
import { OpenDialog, SaveDialog } from './file-dialogs';
import { FileQuestion } from './file-question';
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
    case 'fileChanged':
    case 'newerPlan':
    case 'shopChanged':
    case 'fileExists':
      return <FileQuestion question={question} onClose={close} />;
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
