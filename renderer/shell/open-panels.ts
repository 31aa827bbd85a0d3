/** Two panels beside the canvas would leave no room for it. */
export const NARROW = '(max-width: 68rem)';

/** Side panels of the Bench. */
export interface OpenPanels {
  readonly leftOpen: boolean;
  readonly rightOpen: boolean;
}

/** The panels that a window opens with: those not folded last time, and in a narrow window the setup alone of both. */
export function getFirstPanels({ leftOpen = true, rightOpen = true }: Partial<OpenPanels>): OpenPanels {
  return { leftOpen, rightOpen: rightOpen && !(leftOpen && window.matchMedia(NARROW).matches) };
}
