import { runChanceBench } from './chance.bench';
import { runEvaluateBench } from './evaluate.bench';
import { runOrderBench } from './order.bench';
import { runSheetBench } from './sheet.bench';

// Each bench prints its times beside a baseline measured in the same run, so that the ratios mean the same on any machine.
runEvaluateBench();
runOrderBench();
runChanceBench();
await runSheetBench();
