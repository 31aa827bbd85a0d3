import { describe, expect, it } from 'vitest';
import { parseStartOptions } from '../../../main/start/start-options';

describe('parseStartOptions', () => {
  it('opens the sample in the best way there is when nothing is said', () => {
    expect(parseStartOptions([])).toEqual({ asked: 'auto', plan: undefined, help: false });
  });

  it('takes one plan and one way', () => {
    expect(parseStartOptions(['--browser', 'arms.kgplan'])).toEqual({
      asked: 'browser',
      plan: 'arms.kgplan',
      help: false,
    });
  });

  it.each([
    [['a.kgplan', 'b.kgplan'], /one plan/],
    [['--browser', '--address'], /--browser and --address/],
    [['--fullscreen'], /--fullscreen/],
  ])('refuses %j', (args, sentence) => {
    expect(() => parseStartOptions(args)).toThrow(sentence);
  });
});
