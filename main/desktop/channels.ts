/** Names of the messages between the window's page and the main process. */
export const CHANNELS = {
  /** Page to main: a verb and its request; answered with a reply. */
  call: 'kerfgrip:call',
  /** Main to page: the id of an action. */
  action: 'kerfgrip:action',
  /** Main to page: the token of a plan to open. */
  open: 'kerfgrip:open',
} as const;
