// All that the page gets of the machine: it runs in a sandbox, without Node.
import { contextBridge, ipcRenderer } from 'electron';
import type { DesktopBridge } from '../../shared/contract/desktop';
import { CHANNELS } from './channels';

/** Hands on what comes over a channel; what comes before the page listens waits for it. */
function createInbox(channel: string): (listener: (value: string) => void) => void {
  const waiting: string[] = [];
  let hand = (value: string): void => void waiting.push(value);
  ipcRenderer.on(channel, (_, value: string) => hand(value));
  return (listener) => {
    hand = listener;
    for (const value of waiting.splice(0)) listener(value);
  };
}

const bridge: DesktopBridge = {
  call: (verb, request) => ipcRenderer.invoke(CHANNELS.call, verb, request),
  onAction: createInbox(CHANNELS.action),
  onOpen: createInbox(CHANNELS.open),
};

contextBridge.exposeInMainWorld('kerfgrip', bridge);
