import type { Draft, Judge } from './judge';
import { buildFix, lengthInput } from './judge';

/** Bending is shown to this, mm (0.0001 in): an estimate that reads the same as its limit is within it. */
const SHOWN_STEP = 0.00254;

/** Long tools: stick-out, bending, collisions, step-downs. */
export function judgeReach(judge: Judge): Draft[] {
  const { plan, judged, shop } = judge;
  return judged.reach.flatMap((reach): Draft[] => {
    const index = plan.cuts.findIndex((cut) => cut.id === reach.cutId);
    const cut = plan.cuts[index];
    if (cut === undefined) return [];
    const tool = [...plan.library.tools, ...shop.tools].find((entry) => entry.id === reach.toolId);
    const name = tool === undefined ? `"${cut.name}"` : `${tool.number} ${tool.name}`.trim();
    const features = [{ kind: 'cut', id: cut.id }] as const;
    const drafts: Draft[] = [];
    if (reach.clash !== '') {
      drafts.push({
        code: 'tool-collides',
        about: cut.id,
        severity: 'stop',
        sentence: `${name}, "${cut.name}": ${reach.clash}`,
        features: [...features, { kind: 'cutter', id: cut.id }],
      });
    }
    if (reach.stickOut.pinned && reach.stickOut.value < reach.needStickOut - 1e-6) {
      drafts.push({
        code: 'stick-out-short',
        about: cut.id,
        severity: 'stop',
        sentence: `${name} is set to stick out ${judge.sayUnit(reach.stickOut.value)}; "${cut.name}" needs ${judge.say(reach.needStickOut)}.`,
        numbers: [lengthInput('set', reach.stickOut.value), lengthInput('needed', reach.needStickOut)],
        features: [...features],
        fixes: [buildFix(`Stick out ${judge.say(reach.stickOut.auto)}`, ['cuts', index, 'stickOut'], 'auto')],
      });
    }
    const ratio = reach.ratio.value;
    if (ratio > reach.ratioComfort) {
      const over = ratio > reach.ratioLimit;
      const excess = reach.stickOut.pinned && reach.stickOut.value > reach.needStickOut + 1;
      drafts.push({
        code: 'sticks-out-far',
        about: cut.id,
        severity: over ? 'check' : 'note',
        sentence: `${name} sticks out ${ratio.toFixed(1)} diameters for "${cut.name}"; ${reach.ratioComfort} is comfortable and ${reach.ratioLimit} the limit for its material.`,
        detail: excess
          ? `${judge.sayUnit(reach.needStickOut)} would do: bending goes with the cube, so it would bend ${((reach.needStickOut / reach.stickOut.value) ** 3 * 100).toFixed(0)} % as much.`
          : `It bends ${judge.say(reach.deflection.value)} by estimate.`,
        numbers: [lengthInput('stick-out', reach.stickOut.value), lengthInput('needed', reach.needStickOut)],
        features: [...features],
        fixes: excess
          ? [buildFix(`Stick out ${judge.say(reach.stickOut.auto)}`, ['cuts', index, 'stickOut'], 'auto')]
          : [],
      });
    }
    const bendLimit = getBendLimit(judge, index);
    if (reach.deflection.value > bendLimit + SHOWN_STEP / 2) {
      drafts.push({
        code: 'tool-bends',
        about: cut.id,
        severity: 'check',
        sentence: `${name} bends ${judge.sayUnit(reach.deflection.value)} under "${cut.name}" by estimate; ${judge.say(bendLimit)} is allowed.`,
        numbers: reach.deflection.why.inputs,
        features: [...features],
      });
    }
    if (cut.kind !== 'cutOff' && cut.kind !== 'drill' && cut.stepDown > shop.rules.deepStepDown * 1.5) {
      drafts.push({
        code: 'step-down-deep',
        about: cut.id,
        severity: 'check',
        sentence: `"${cut.name}" steps down ${judge.sayUnit(cut.stepDown)} at a time; deep profiles are usually stepped down about ${judge.say(shop.rules.deepStepDown)}.`,
        features: [...features],
        fixes: [
          buildFix(
            `Step down ${judge.say(shop.rules.deepStepDown)}`,
            ['cuts', index, 'stepDown'],
            shop.rules.deepStepDown,
          ),
        ],
      });
    }
    return drafts;
  });
}

/** A side cut that a later side cut goes over again may bend as much as that one takes off; the last one leaves the face. */
function getBendLimit(judge: Judge, index: number): number {
  const { plan, shop } = judge;
  const later =
    plan.cuts[index]?.kind === 'side' ? plan.cuts.slice(index + 1).find((cut) => cut.kind === 'side') : undefined;
  return Math.max(shop.rules.toolDeflectionLimit, later?.sideEngagement ?? 0);
}
