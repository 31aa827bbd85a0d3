import { describe, expect, it } from 'vitest';
import { computePanelChange } from '../../../renderer/shell/one-panel';

const panels = (leftOpen: boolean, rightOpen: boolean, foldedForRoom: 'left' | 'right' | null = null) => ({
  leftOpen,
  rightOpen,
  foldedForRoom,
});

describe('the side panels of the Bench', () => {
  const both = panels(true, true);

  it('stand both in a wide window, as the user left them', () => {
    expect(computePanelChange(both, both, false)).toBeNull();
    expect(computePanelChange(panels(true, false), both, false)).toBeNull();
  });

  it('leave one in a narrow window: the one opened last', () => {
    expect(computePanelChange(both, both, true)).toEqual({ rightOpen: false, foldedForRoom: 'right' });
    expect(computePanelChange(both, panels(true, false), true)).toEqual({ leftOpen: false, foldedForRoom: 'left' });
    expect(computePanelChange(both, panels(false, true), true)).toEqual({ rightOpen: false, foldedForRoom: 'right' });
  });

  it('open again, where only the want of room had folded them, as the window widens', () => {
    const folded = panels(true, false, 'right');
    expect(computePanelChange(folded, folded, true)).toBeNull();
    expect(computePanelChange(folded, folded, false)).toEqual({ rightOpen: true, foldedForRoom: null });
  });

  it('are the user’s own again once one is opened by hand', () => {
    expect(computePanelChange(panels(false, true, 'right'), panels(false, false, 'right'), true)).toEqual({
      rightOpen: true,
      foldedForRoom: null,
    });
  });
});
