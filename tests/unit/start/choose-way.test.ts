import { describe, expect, it } from 'vitest';
import { chooseWay, getHasDisplay, getWantsElectron } from '../../../main/start/choose-way';

const means = { asked: 'auto', hasDisplay: true, electron: '/dist/electron', browser: '/usr/bin/chromium' } as const;

describe('chooseWay', () => {
  it('opens Electron where its binary is', () => {
    expect(chooseWay(means)).toEqual({ kind: 'electron', binary: '/dist/electron' });
  });

  it('opens an app window where Electron is not to be had', () => {
    const window = { kind: 'app-window', browser: '/usr/bin/chromium' };
    expect(chooseWay({ ...means, electron: undefined })).toEqual(window);
    expect(chooseWay({ ...means, asked: 'electron', electron: undefined })).toEqual(window);
  });

  it('opens the browser when it is asked for, although Electron is there', () => {
    expect(chooseWay({ ...means, asked: 'browser' }).kind).toBe('app-window');
  });

  it('gives the address, with the reason, where there is no display or no browser', () => {
    expect(chooseWay({ ...means, hasDisplay: false })).toEqual({
      kind: 'address',
      reason: 'There is no display here to open a window on.',
    });
    const way = chooseWay({ ...means, electron: undefined, browser: undefined });
    expect(way.kind === 'address' && way.reason).toMatch(/Neither Electron nor a Chromium-family browser/);
  });

  it('opens no window when the address is asked for', () => {
    expect(chooseWay({ ...means, asked: 'address' }).kind).toBe('address');
  });
});

describe('getHasDisplay', () => {
  it('asks for X or Wayland on Linux alone', () => {
    expect(getHasDisplay('linux', {})).toBe(false);
    expect(getHasDisplay('linux', { DISPLAY: '' })).toBe(false);
    expect(getHasDisplay('linux', { DISPLAY: ':0' })).toBe(true);
    expect(getHasDisplay('linux', { WAYLAND_DISPLAY: 'wayland-0' })).toBe(true);
    expect(getHasDisplay('darwin', {})).toBe(true);
    expect(getHasDisplay('win32', {})).toBe(true);
  });
});

describe('getWantsElectron', () => {
  it('fetches nothing when Electron could not be used', () => {
    expect(getWantsElectron('auto', false)).toBe(false);
    expect(getWantsElectron('browser', true)).toBe(false);
    expect(getWantsElectron('address', true)).toBe(false);
    expect(getWantsElectron('auto', true)).toBe(true);
  });
});
