import { useCallback, useEffect, useState } from 'react';
import type { FolderListing, ReadKind } from '../../shared/contract/host';
import { useApp } from '../state/hooks';

export interface FolderState {
  readonly listing: FolderListing | null;
  readonly problem: string;
  readonly enter: (folder: string | null) => void;
}

/** The folder looked at, for a host that has no dialogs of its own, with its files of one kind. */
export function useFolder(show: 'plan' | ReadKind): FolderState {
  const { host } = useApp();
  const [listing, setListing] = useState<FolderListing | null>(null);
  const [problem, setProblem] = useState('');
  const enter = useCallback(
    (folder: string | null) => {
      const asked = show === 'plan' ? host.call('browse', { folder }) : host.call('browseFiles', { folder, show });
      void asked.then((reply) => {
        if (reply.ok) setListing(reply.value);
        setProblem(reply.ok ? '' : reply.problem.sentence);
      });
    },
    [host, show],
  );
  useEffect(() => enter(null), [enter]);
  return { listing, problem, enter };
}
