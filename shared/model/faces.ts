/** The six faces of a part as it stands in the vise. Top is +Z, the fixed jaw is at Y 0, the stop at X 0. */
export const FACES = ['top', 'bottom', 'fixedSide', 'movingSide', 'leftEnd', 'rightEnd'] as const;

export type Face = (typeof FACES)[number];

/** One value for each face. */
export type PerFace<T> = Record<Face, T>;
