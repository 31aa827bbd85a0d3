import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { homedir, userInfo } from 'node:os';
import { join } from 'node:path';
import { createKeptVersions } from './kept-versions';
import { createLockNotes, type LockNotes } from './lock-notes';
import { createPlanFiles, type PlanFiles } from './plan-files';
import { ASSETS_FOLDER, PACKAGE_FILE } from './program-folders';
import { createRecents, type Recents } from './recents';
import { createRecovery, type Recovery } from './recovery';
import { createSamples, type Samples } from './samples';
import { createShopLibrary, type ShopLibrary } from './shop-library';

/** Everything on disk that a host works with, and what it knows of the machine. */
export interface Services {
  planFiles: PlanFiles;
  shopLibrary: ShopLibrary;
  recovery: Recovery;
  recents: Recents;
  samples: Samples;
  locks: LockNotes;
  now: () => Date;
  home: string;
  userName: string;
  locale: string;
  version: string;
  /** Ends the session; unsaved work stays in the journal. */
  close(): Promise<void>;
}

export interface ServiceParts {
  dataFolder: string;
  samplesFolder?: string;
  now?: () => Date;
  session?: string;
}

export function createServices({
  dataFolder,
  samplesFolder = join(ASSETS_FOLDER, 'samples'),
  now = () => new Date(),
  session = randomUUID(),
}: ServiceParts): Services {
  const userName = getUserName();
  const versions = createKeptVersions(join(dataFolder, 'versions'), now);
  const locks = createLockNotes(session, userName, now);
  const shopLibrary = createShopLibrary({ file: join(dataFolder, 'shop.json'), versions });
  const recovery = createRecovery({ folder: join(dataFolder, 'recovery'), session, now, readShop: shopLibrary.peek });
  return {
    planFiles: createPlanFiles({ versions, locks, now }),
    shopLibrary,
    recovery,
    recents: createRecents(join(dataFolder, 'recents.json'), now),
    samples: createSamples(samplesFolder),
    locks,
    now,
    home: homedir(),
    userName,
    locale: new Intl.DateTimeFormat().resolvedOptions().locale,
    version: getVersion(),
    async close() {
      await Promise.all([locks.takeAll(), recovery.close()]);
    },
  };
}

function getUserName(): string {
  try {
    return userInfo().username;
  } catch {
    // A user id without a name, as in some containers.
    return '';
  }
}

function getVersion(): string {
  const { version } = JSON.parse(readFileSync(PACKAGE_FILE, 'utf8')) as { version: string };
  return version;
}
