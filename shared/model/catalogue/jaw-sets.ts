import { inchesToMm } from '../../units/exact';
import type { JawBolts, JawFace, JawSet } from '../shop';
import { getScrewHead } from './socket-screws';
import { COMMON_PRACTICE, TYPICAL } from './sources';

const FRICTION_SOURCE = `friction ${TYPICAL}`;

type FaceLimits = Pick<
  JawSet,
  | 'leastFlatGrip'
  | 'comfortableGrip'
  | 'maxProudToGrip'
  | 'maxProudToThickness'
  | 'friction'
  | 'yieldStrengthMPa'
  | 'source'
>;

const HARD_JAW_YIELD_MPA = 1000;
/** 6061-T6, as ASTM B221. */
const SOFT_JAW_YIELD_MPA = 241;

/**
 * Limits by jaw face. The shop's rule of three times the grip and twice the thickness is stated for plain jaws; a shelf carries
 * the bar and teeth bite into it, so those faces bear more. About 1/4 in left in plain or soft jaws is close, 1/2 in comfortable.
 */
const FACE_LIMITS: Readonly<Record<JawFace, FaceLimits>> = {
  smooth: {
    leastFlatGrip: inchesToMm(0.22),
    comfortableGrip: inchesToMm(0.4375),
    maxProudToGrip: 3,
    maxProudToThickness: 2,
    friction: { ground: 0.07, machined: 0.1, asSupplied: 0.15 },
    yieldStrengthMPa: HARD_JAW_YIELD_MPA,
    source: `grip limits: ${COMMON_PRACTICE}; ${FRICTION_SOURCE}`,
  },
  serrated: {
    leastFlatGrip: inchesToMm(0.16),
    comfortableGrip: inchesToMm(0.3125),
    maxProudToGrip: 4,
    maxProudToThickness: 2.5,
    friction: { ground: 0.12, machined: 0.2, asSupplied: 0.3 },
    yieldStrengthMPa: HARD_JAW_YIELD_MPA,
    source: `grip limits: ${COMMON_PRACTICE}; ${FRICTION_SOURCE}; marks the work`,
  },
  toothed: {
    leastFlatGrip: inchesToMm(0.1),
    comfortableGrip: inchesToMm(0.15),
    maxProudToGrip: 12,
    maxProudToThickness: 2.5,
    friction: { ground: 0.2, machined: 0.35, asSupplied: 0.45 },
    yieldStrengthMPa: HARD_JAW_YIELD_MPA,
    source: `grip limits: ${COMMON_PRACTICE}; ${FRICTION_SOURCE}; bites into the work`,
  },
  soft: {
    leastFlatGrip: inchesToMm(0.2),
    comfortableGrip: inchesToMm(0.375),
    maxProudToGrip: 4,
    maxProudToThickness: 2.5,
    friction: { ground: 0.07, machined: 0.1, asSupplied: 0.15 },
    yieldStrengthMPa: SOFT_JAW_YIELD_MPA,
    source: `grip limits: ${COMMON_PRACTICE}; friction taken as for smooth steel jaws, ${TYPICAL}; aluminium, strength by ASTM B221`,
  },
};

const FACE_NAMES: Readonly<Record<JawFace, string>> = {
  smooth: 'Smooth hard jaws',
  serrated: 'Serrated jaws',
  toothed: 'Toothed jaws',
  soft: 'Aluminium soft jaws',
};

interface ViseJaws {
  /** Ending of the ids, as in `vise-6in`. */
  key: string;
  label: string;
  hardThickness: number;
  softThickness: number;
  /** Soft jaws stand higher than the hard ones, to leave metal for a shelf. */
  softHeight: number;
  thread: string;
  boltSpacing: number;
  boltCentreHeight: number;
}

const VISE_JAWS: readonly ViseJaws[] = [
  {
    key: '4in',
    label: '4 in',
    hardThickness: inchesToMm(0.5),
    softThickness: inchesToMm(0.875),
    softHeight: inchesToMm(1.75),
    thread: '3/8',
    boltSpacing: inchesToMm(2.5),
    boltCentreHeight: inchesToMm(0.625),
  },
  {
    key: '6in',
    label: '6 in',
    hardThickness: inchesToMm(0.625),
    softThickness: inchesToMm(1),
    softHeight: inchesToMm(2.25),
    thread: '1/2',
    boltSpacing: inchesToMm(4),
    boltCentreHeight: inchesToMm(0.875),
  },
  {
    key: '125mm',
    label: '125 mm',
    hardThickness: 15,
    softThickness: 25,
    softHeight: 50,
    thread: 'M10',
    boltSpacing: 80,
    boltCentreHeight: 18,
  },
];

function getBolts(jaws: ViseJaws): JawBolts | null {
  const head = getScrewHead(jaws.thread);
  if (head === undefined) return null;
  return {
    thread: jaws.thread,
    spacing: jaws.boltSpacing,
    centreHeight: jaws.boltCentreHeight,
    counterboreDiameter: head.counterboreDiameter,
    counterboreDepth: head.counterboreDepth,
  };
}

function getJawSet(jaws: ViseJaws, face: JawFace): JawSet {
  const isSoft = face === 'soft';
  const limits = FACE_LIMITS[face];
  return {
    id: `jaws-${jaws.key}-${face}`,
    name: `${FACE_NAMES[face]}, ${jaws.label}`,
    face,
    thickness: isSoft ? jaws.softThickness : jaws.hardThickness,
    height: isSoft ? jaws.softHeight : null,
    millable: isSoft,
    bolts: getBolts(jaws),
    ...limits,
    source: `sizes ${TYPICAL}; ${limits.source}`,
  };
}

/** Smooth, serrated, toothed and soft jaws for each vise. */
export const JAW_SETS: JawSet[] = VISE_JAWS.flatMap((jaws) =>
  (['smooth', 'serrated', 'toothed', 'soft'] as const).map((face) => getJawSet(jaws, face)),
);
