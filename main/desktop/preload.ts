// All that the page gets of the machine: it runs in a sandbox, without Node.
import { contextBridge, ipcRenderer } from 'electron';
import type { DesktopBridge } from '../../shared/contract/desktop';
import { CHANNELS } from './channels';

const bridge: DesktopBridge = {
  call: (verb, request) => ipcRenderer.invoke(CHANNELS.call, verb, request),
  onAction: (listener) => {
    ipcRenderer.on(CHANNELS.action, (_, id: string) => listener(id));
  },
  onOpen: (listener) => {
    ipcRenderer.on(CHANNELS.open, (_, token: string) => listener(token));
  },
};

contextBridge.exposeInMainWorld('kerfgrip', bridge);
