import { useEffect } from 'react';
import { useApp } from '../state/hooks';

/** Two panels beside the canvas would leave no room for it. */
const NARROW = '(max-width: 68rem)';

/** In a narrow window one side panel of the Bench is open at a time: the one that was opened last. */
export function useOnePanelWhenNarrow(): void {
  const { view } = useApp();
  useEffect(() => {
    const query = window.matchMedia(NARROW);
    const foldOne = (wasRightOpen: boolean): void => {
      const { leftOpen, rightOpen } = view.store.getState();
      if (!query.matches || !leftOpen || !rightOpen) return;
      view.store.setState(wasRightOpen ? { rightOpen: false } : { leftOpen: false });
    };
    const handleWidth = (): void => foldOne(true);
    handleWidth();
    query.addEventListener('change', handleWidth);
    const stop = view.store.subscribe((_, before) => foldOne(before.rightOpen));
    return () => {
      query.removeEventListener('change', handleWidth);
      stop();
    };
  }, [view]);
}
