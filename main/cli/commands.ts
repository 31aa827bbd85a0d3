import { evaluateCommand } from './evaluate-command';
import { lengthCommand } from './length-command';
import { nestCommand } from './nest-command';
import { orderCommand } from './order-command';
import type { Commands } from './run-cli';
import { sheetCommand } from './sheet-command';

/** Every verb of the command line, in the order of the help. */
export const COMMANDS: Commands = {
  evaluate: evaluateCommand,
  sheet: sheetCommand,
  order: orderCommand,
  length: lengthCommand,
  nest: nestCommand,
};
