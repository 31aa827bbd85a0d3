/** What the user says about work that is not on file when the window is to close. */
export type CloseAnswer = 'save' | 'discard' | 'stay';

export interface CloseGuardParts {
  ask: () => Promise<CloseAnswer>;
  /** Starts saving in the page, as its own Save does. */
  save: () => void;
  /** Drops the journal of work that the user gives up. */
  discard: () => Promise<void>;
  /** Closes without asking again. */
  close: () => void;
}

/** Keeps the window open until its work is on file or given up. */
export interface CloseGuard {
  setUnsaved(unsaved: boolean): void;
  /** The window is to close. @returns true when it may do so at once */
  handleClose(): boolean;
  /** A save did not come to its end: an error, or the user thought better of it. */
  handleSaveFailed(): void;
}

export function createCloseGuard({ ask, save, discard, close }: CloseGuardParts): CloseGuard {
  let isUnsaved = false;
  let isAsking = false;
  let closesOnceSaved = false;

  const askAndAct = async (): Promise<void> => {
    isAsking = true;
    const answer = await ask().finally(() => {
      isAsking = false;
    });
    switch (answer) {
      case 'save':
        closesOnceSaved = true;
        save();
        return;
      case 'discard':
        await discard();
        close();
        return;
      case 'stay':
        return;
      default:
        answer satisfies never;
    }
  };

  return {
    setUnsaved(unsaved) {
      isUnsaved = unsaved;
      if (!unsaved && closesOnceSaved) close();
    },
    handleClose() {
      if (!isUnsaved) return true;
      closesOnceSaved = false;
      if (!isAsking) void askAndAct();
      return false;
    },
    handleSaveFailed() {
      closesOnceSaved = false;
    },
  };
}
