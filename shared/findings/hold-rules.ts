import type { Draft, Judge } from './judge';
import { buildBarFix, buildFix, findBar, lengthInput } from './judge';
import { buildRemedyFix } from './remedy-fix';

/** Vises, clamp force, hold and bending of the work. */
export function judgeHolding(judge: Judge): Draft[] {
  if (judge.judged.section === null) return [];
  return [...judgeVises(judge), ...judgeHold(judge), ...judgeBending(judge), ...judgeMachine(judge)];
}

function judgeVises(judge: Judge): Draft[] {
  const { vises, blanks } = judge.judged;
  if (vises === null) return [];
  const drafts: Draft[] = [];
  if (vises.clash !== '') {
    drafts.push({
      code: 'vises-clash',
      severity: 'stop',
      sentence: vises.clash,
      features: [{ kind: 'table', id: 'table' }],
      fixes: vises.centres.pinned ? [buildFix('Place the vises afresh', ['holding', 'vises'], 'auto')] : [],
    });
  }
  for (const blank of blanks) {
    if (blank.contacts.length > 0) continue;
    drafts.push({
      code: 'not-in-a-vise',
      about: blank.templateId,
      severity: 'stop',
      sentence: `No vise touches ${blank.label}.`,
      features: [{ kind: 'blank', id: blank.templateId }],
      fixes: [buildFix('Centre the bar in the vises', ['holding', 'blankX'], 'auto')],
    });
  }
  const several = blanks.some((blank) => blank.contacts.length > 1);
  if (several) {
    drafts.push({
      code: 'tighten-every-vise',
      severity: 'note',
      sentence:
        'Several vises hold one bar: every one has to be tight before a cut, and a bent bar is pulled straight without any feel.',
      features: [{ kind: 'vise', id: '0' }],
    });
  }
  return drafts;
}

function judgeHold(judge: Judge): Draft[] {
  const { rules } = judge.shop;
  const vise = [...judge.plan.library.vises, ...judge.shop.vises].find(
    (entry) => entry.id === judge.plan.holding.viseId,
  );
  const drafts: Draft[] = [];
  const clamp = judge.judged.vises?.clampForceN;
  if (vise !== undefined && clamp !== undefined && clamp.value > vise.maxClampForceN) {
    drafts.push({
      code: 'clamp-over-limit',
      severity: 'stop',
      sentence: `A clamp force of ${judge.sayKind(clamp.value, 'force')} is more than the ${vise.name} may be driven to, ${judge.sayKind(vise.maxClampForceN, 'force')}.`,
      features: [
        { kind: 'vise', id: '0' },
        { kind: 'field', id: 'holding.clamp' },
      ],
      fixes: [
        buildFix(`Clamp with ${judge.sayKind(vise.maxClampForceN, 'force')}`, ['holding', 'clamp'], {
          kind: 'force',
          clampForceN: vise.maxClampForceN,
        }),
      ],
    });
  }
  const worst = judge.judged.blanks
    .filter((blank) => blank.hold.weakest !== null)
    .sort((a, b) => (a.hold.weakest?.factor.value ?? 0) - (b.hold.weakest?.factor.value ?? 0))[0];
  const weakest = worst?.hold.weakest;
  if (worst === undefined || weakest == null) return drafts;
  const factor = weakest.factor.value;
  const cut = judge.plan.cuts.find((candidate) => candidate.id === weakest.cutId);
  if (factor < rules.holdFactorCheck) {
    const wanted = factor < rules.holdFactorStop ? rules.holdFactorStop : rules.holdFactorCheck;
    const { remedies } = worst.hold;
    const hasBar = remedies.some(({ change }) => change.kind === 'bar');
    const bar = hasBar ? null : findBar(judge, (row) => (row.holdFactor ?? 0) >= wanted);
    drafts.push({
      code: 'hold-weak',
      about: worst.templateId,
      severity: factor < rules.holdFactorStop ? 'stop' : 'check',
      sentence: `${worst.label}: the hold is estimated at ${factor.toFixed(1)} × the ${weakest.by === 'tip' ? 'tipping' : 'slipping'} load of "${cut?.name ?? 'a cut'}"; the shop wants ${rules.holdFactorCheck} ×, and stops under ${rules.holdFactorStop} ×.`,
      detail: remedies.length === 0 ? '' : `What helps most: ${remedies.map((remedy) => remedy.sentence).join(' ')}`,
      numbers: weakest.factor.why.inputs,
      features: [
        { kind: 'blank', id: worst.templateId },
        { kind: 'cut', id: weakest.cutId },
      ],
      fixes: [
        ...remedies.map((remedy) => buildRemedyFix(remedy, judge)),
        ...(bar === null ? [] : [buildBarFix(bar, judge, `hold × ${(bar.holdFactor ?? 0).toFixed(1)}`)]),
      ],
    });
  }
  const opening = worst.hold.rows.find((row) => row.opens);
  if (opening !== undefined && factor >= rules.holdFactorCheck) {
    drafts.push({
      code: 'grip-opens',
      severity: 'note',
      sentence: `${worst.label}: under "${judge.plan.cuts.find((candidate) => candidate.id === opening.cutId)?.name ?? 'a cut'}" the lower edge of the grip begins to open before it rolls out; expect movement on heavy cuts.`,
      features: [{ kind: 'blank', id: worst.templateId }],
    });
  }
  const pressed = judge.judged.blanks.find(
    (blank) => blank.hold.jawPressureMPa.value > blank.hold.jawPressureAllowedMPa && blank.contactLength > 0,
  );
  if (pressed !== undefined) {
    drafts.push({
      code: 'jaw-pressure',
      severity: 'check',
      sentence: `The jaws press ${pressed.label} with ${judge.sayKind(pressed.hold.jawPressureMPa.value, 'stress')}; ${judge.sayKind(pressed.hold.jawPressureAllowedMPa, 'stress')} is allowed before the softer of jaw and bar marks.`,
      features: [
        { kind: 'jaw', id: 'fixed' },
        { kind: 'blank', id: pressed.templateId },
      ],
    });
  }
  return drafts;
}

function judgeBending(judge: Judge): Draft[] {
  const limit = judge.shop.rules.deflectionLimit;
  const count = judge.judged.vises?.count.value ?? 0;
  return judge.judged.blanks.flatMap((blank): Draft[] => {
    if (blank.contacts.length === 0) return [];
    const drafts: Draft[] = [];
    const { overhang, betweenVises, proudWall } = blank.deflection;
    const along = Math.max(overhang.value, betweenVises.value);
    if (along > limit) {
      const isOverhang = overhang.value >= betweenVises.value;
      const length = isOverhang ? Math.max(blank.overhangLeft, blank.overhangRight) : blank.largestGap;
      drafts.push({
        code: isOverhang ? 'overhang-bends' : 'span-bends',
        about: blank.templateId,
        severity: 'check',
        sentence: isOverhang
          ? `${blank.label} sticks out ${judge.sayUnit(length)} past the last jaw and bends ${judge.say(along)} there; up to ${judge.say(blank.longestLegalOverhang.value)} may stick out.`
          : `${blank.label} spans ${judge.sayUnit(length)} between vises and bends ${judge.say(along)} there; ${judge.say(limit)} is allowed.`,
        detail: 'Add a vise, move the vises, or set a jack under the end.',
        numbers: [lengthInput('bends', along), lengthInput('allowed', limit), lengthInput('free length', length)],
        features: [{ kind: 'blank', id: blank.templateId }],
        fixes: [
          buildFix(`Use ${count + 1} vises`, ['holding', 'viseCount'], { pinned: count + 1 }),
          ...(judge.plan.holding.vises === 'auto'
            ? []
            : [buildFix('Place the vises afresh', ['holding', 'vises'], 'auto')]),
        ],
      });
    }
    if (proudWall.value > limit) {
      drafts.push({
        code: 'wall-bends',
        about: blank.templateId,
        severity: 'check',
        sentence: `${blank.label}: the standing wall bends ${judge.sayUnit(proudWall.value)} under the heaviest cut; ${judge.say(limit)} is allowed. Take a lighter finishing pass.`,
        numbers: [lengthInput('bends', proudWall.value), lengthInput('allowed', limit)],
        features: [{ kind: 'blank', id: blank.templateId }],
      });
    }
    return drafts;
  });
}

function judgeMachine(judge: Judge): Draft[] {
  const { machine } = judge.shop;
  return judge.judged.cuts.flatMap((cut): Draft[] => {
    if (!cut.feasible) return [];
    const drafts: Draft[] = [];
    if (cut.powerKw.value > machine.spindlePowerKw) {
      drafts.push({
        code: 'too-little-power',
        about: cut.cutId,
        severity: 'check',
        sentence: `"${cut.name}" asks for ${judge.sayKind(cut.powerKw.value, 'power')}; the spindle has ${judge.sayKind(machine.spindlePowerKw, 'power')}.`,
        features: [{ kind: 'cut', id: cut.cutId }],
      });
    }
    if (cut.spindleRpm > machine.maxSpindleRpm) {
      drafts.push({
        code: 'too-fast',
        about: cut.cutId,
        severity: 'check',
        sentence: `"${cut.name}" asks for ${judge.sayKind(cut.spindleRpm, 'spindleSpeed')}; the spindle turns ${judge.sayKind(machine.maxSpindleRpm, 'spindleSpeed')} at most.`,
        features: [{ kind: 'cut', id: cut.cutId }],
      });
    }
    return drafts;
  });
}
