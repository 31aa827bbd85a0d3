import { evaluateCommand } from './evaluate-command';
import { lengthCommand } from './length-command';
import { nestCommand } from './nest-command';
import { orderCommand } from './order-command';
import type { Commands } from './run-cli';

/** Every verb of the command line, in the order of the help. */
export const COMMANDS: Commands = {
  evaluate: evaluateCommand,
  order: orderCommand,
  length: lengthCommand,
  nest: nestCommand,
};
