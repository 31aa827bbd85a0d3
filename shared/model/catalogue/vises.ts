import { inchesToMm } from '../../units/exact';
import type { Vise, ViseScrew } from '../shop';
import { TYPICAL } from './sources';

const SCREW_SOURCE =
  `screw sizes ${TYPICAL}; friction of oiled steel on cast iron 0.11-0.17, hard collar on cast iron 0.09: ` +
  "Shigley's Mechanical Engineering Design, 9th ed., Tables 8-5 and 8-6";

/** Collar diameter over screw diameter: Shigley's usual assumption for a nut face. */
const COLLAR_TO_SCREW = 1.25;

function getScrew(nominalDiameter: number, lead: number, threadHalfAngleDeg: number): ViseScrew {
  return {
    nominalDiameter,
    // Half a pitch in on each side, as for square, Acme and trapezoidal threads.
    meanDiameter: nominalDiameter - lead / 2,
    lead,
    threadHalfAngleDeg,
    threadFriction: 0.14,
    collarFriction: 0.09,
    collarMeanDiameter: nominalDiameter * COLLAR_TO_SCREW,
    source: SCREW_SOURCE,
  };
}

/** Vises a shop starts with; single-screw machine vises with the screw under the moving jaw. */
export const VISES: Vise[] = [
  {
    id: 'vise-4in',
    name: '4 in machine vise',
    jawWidth: inchesToMm(4),
    jawHeight: inchesToMm(1.25),
    bedHeight: inchesToMm(2),
    maxOpening: inchesToMm(4),
    bodyLength: inchesToMm(4.75),
    bodyWidth: inchesToMm(11),
    fixedJawSetback: inchesToMm(2.5),
    maxClampForceN: 20_000,
    screw: getScrew(inchesToMm(0.75), inchesToMm(1 / 6), 14.5),
    movingJawCannotCock: false,
    source: TYPICAL,
  },
  {
    id: 'vise-6in',
    name: '6 in machine vise',
    jawWidth: inchesToMm(6),
    jawHeight: inchesToMm(1.75),
    bedHeight: inchesToMm(2.75),
    maxOpening: inchesToMm(6),
    bodyLength: inchesToMm(7),
    bodyWidth: inchesToMm(15),
    fixedJawSetback: inchesToMm(3.5),
    maxClampForceN: 32_000,
    screw: getScrew(inchesToMm(1), inchesToMm(0.2), 14.5),
    movingJawCannotCock: false,
    source: TYPICAL,
  },
  {
    id: 'vise-125mm',
    name: '125 mm machine vise',
    jawWidth: 125,
    jawHeight: 40,
    bedHeight: 60,
    maxOpening: 150,
    bodyLength: 150,
    bodyWidth: 360,
    fixedJawSetback: 80,
    maxClampForceN: 25_000,
    screw: getScrew(24, 5, 15),
    movingJawCannotCock: false,
    source: TYPICAL,
  },
];
