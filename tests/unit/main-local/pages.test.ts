import { EventEmitter } from 'node:events';
import type { ServerResponse } from 'node:http';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createOnePage } from '../../../main/local/one-page';
import { createPagePresence } from '../../../main/local/page-presence';

describe('a window', () => {
  const GRACE_MS = 30_000;

  class FakeStream extends EventEmitter {
    writeHead(): void {}
    write(): void {}
    end(): void {
      this.emit('close');
    }
  }

  function watchWindows() {
    const onGone = vi.fn();
    const presence = createPagePresence(GRACE_MS, onGone);
    const open = (): FakeStream => {
      const stream = new FakeStream();
      presence.add(stream as unknown as ServerResponse);
      return stream;
    };
    return { onGone, presence, open };
  }

  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  test('that never came does not count as gone', () => {
    const { onGone } = watchWindows();
    vi.advanceTimersByTime(GRACE_MS * 100);
    expect(onGone).not.toHaveBeenCalled();
  });

  test('counts as gone once the last has been closed for a while, and not before', () => {
    const { onGone, open } = watchWindows();
    const [one, other] = [open(), open()];
    one.end();
    vi.advanceTimersByTime(GRACE_MS * 2);
    expect(onGone).not.toHaveBeenCalled();
    other.end();
    vi.advanceTimersByTime(GRACE_MS - 1);
    expect(onGone).not.toHaveBeenCalled();
    vi.advanceTimersByTime(1);
    expect(onGone).toHaveBeenCalledTimes(1);
  });

  test('that is loaded anew does not count as gone', () => {
    const { onGone, open } = watchWindows();
    open().end();
    vi.advanceTimersByTime(GRACE_MS - 1);
    open();
    vi.advanceTimersByTime(GRACE_MS * 100);
    expect(onGone).not.toHaveBeenCalled();
  });

  test('is turned away when thirty-two are open', () => {
    const { presence, open } = watchWindows();
    for (let count = 0; count < 32; count += 1) open();
    expect(presence.add(new FakeStream() as unknown as ServerResponse)).toBe(false);
  });

  test('does not count as gone where the host itself ends', () => {
    const { onGone, presence, open } = watchWindows();
    open();
    presence.close();
    vi.advanceTimersByTime(GRACE_MS * 2);
    expect(onGone).not.toHaveBeenCalled();
  });
});

describe('one page at a time', () => {
  const makeHost = () => {
    const calls: string[] = [];
    const call = createOnePage(async (verb) => {
      calls.push(verb);
      return { ok: true, value: null };
    });
    return { calls, call };
  };

  test('works with the host: the one that has started last', async () => {
    const { calls, call } = makeHost();
    await call('start', {}, 'first');
    await call('writeJournal', {}, 'first');
    await call('start', {}, 'second');
    expect(await call('writeJournal', {}, 'first')).toMatchObject({ ok: false, problem: { code: 'other-window' } });
    expect(await call('savePlan', {}, 'first')).toMatchObject({ ok: false, problem: { code: 'other-window' } });
    expect(await call('writeJournal', {}, 'second')).toEqual({ ok: true, value: null });
    expect(calls).toEqual(['start', 'writeJournal', 'start', 'writeJournal']);
  });

  test('may be the first again, by being loaded anew', async () => {
    const { call } = makeHost();
    await call('start', {}, 'first');
    await call('start', {}, 'second');
    await call('start', {}, 'first, loaded anew');
    expect(await call('recents', {}, 'first, loaded anew')).toEqual({ ok: true, value: null });
    expect(await call('recents', {}, 'second')).toMatchObject({ ok: false });
  });
});
