import type { Session, WebContents } from 'electron';
import { getIsOwnAddress, getMayLoad } from './page-address';

/** Takes from the page what a planner has no use for: other addresses, permissions, downloads. */
export function lockDownSession(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest(({ url }, answer) =>
    answer({ cancel: !getMayLoad(url) && !url.startsWith('devtools:') }),
  );
  session.on('will-download', (event) => event.preventDefault());
}

/** Keeps the page where it is: no navigation, no new windows, no embedded pages. */
export function lockDownContents(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-navigate', (event) => {
    if (!getIsOwnAddress(event.url)) event.preventDefault();
  });
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-attach-webview', (event) => event.preventDefault());
}
