import { inchesToMm } from '../../units/exact';
import type { Machine } from '../shop';
import { TYPICAL } from './sources';

/** A small bed mill. */
export const DEFAULT_MACHINE: Machine = {
  name: 'Small CNC mill',
  tableLength: inchesToMm(36),
  tableWidth: inchesToMm(12),
  travelX: inchesToMm(30),
  travelY: inchesToMm(16),
  spindleToTable: inchesToMm(22),
  spindlePowerKw: 5.5,
  maxSpindleRpm: 8000,
  tSlotPitch: 63,
  source: TYPICAL,
};
