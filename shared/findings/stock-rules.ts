import { SAME_LENGTH } from '../engine/rounding';
import { echoBoth } from '../units/format';
import type { Draft, Judge } from './judge';
import { buildBarFix, findBar, getPartName, lengthInput } from './judge';

/** The bar itself: tall enough, thick enough, and with metal to take off where it must come off. */
export function judgeStock(judge: Judge): Draft[] {
  if (judge.judged.section === null) return [];
  return [
    ...judgeHeight(judge),
    ...judgeThickness(judge),
    ...judgeAsSupplied(judge),
    ...judgeOpening(judge),
    ...judgePriceStep(judge),
    ...judgeStocked(judge),
  ];
}

function judgeHeight(judge: Judge): Draft[] {
  const { section, blanks } = judge.judged;
  const blank = [...blanks].sort((a, b) => b.stack.shortBy - a.stack.shortBy)[0];
  if (section === null || blank === undefined || blank.stack.shortBy <= SAME_LENGTH) return [];
  const { stack } = blank;
  const nominalSpare = section.height.nominal - section.height.least - stack.shortBy;
  const name = getPartName(judge.plan, stack.governingPartId);
  const bar = findBar(judge, () => true);
  return [
    {
      code: 'bar-too-low',
      severity: 'stop',
      sentence:
        nominalSpare >= 0
          ? `The ${section.name} bar passes at its nominal size, but the smallest it may be is too low for ${name} by ${judge.sayUnit(stack.shortBy)}.`
          : `The ${section.name} bar is too low for ${name} by ${judge.sayUnit(stack.shortBy)}.`,
      detail: `${judge.say(stack.needAboveJaws)} must stand above the jaws; the smallest bar is ${judge.say(section.height.least)} high, of which the seat takes ${judge.say(stack.grip.nominal)}.`,
      numbers: [
        lengthInput('needed above the jaws', stack.needAboveJaws),
        lengthInput('smallest bar height', section.height.least),
        lengthInput('grip', stack.grip.nominal),
        lengthInput('short by', stack.shortBy),
      ],
      features: [
        { kind: 'stack', id: blank.templateId },
        { kind: 'bar', id: section.barId.value },
      ],
      fixes: bar === null ? [] : [buildBarFix(bar, judge, `grip ${judge.say(bar.grip)}`)],
    },
  ];
}

function judgeThickness(judge: Judge): Draft[] {
  const { section, across } = judge.judged;
  if (section === null) return [];
  return across.flatMap((row): Draft[] => {
    const name = getPartName(judge.plan, row.partId);
    if (row.need > section.thickness.least + SAME_LENGTH) {
      const close = row.shortBy < 1;
      const bar = findBar(judge, (candidate) => candidate.thickness > section.thickness.nominal);
      return [
        {
          code: 'bar-too-thin',
          about: row.partId,
          severity: 'stop',
          sentence: `The thinnest the ${section.name} bar may be is too thin for ${name} by ${close ? echoBoth(row.shortBy) : judge.sayUnit(row.shortBy)}.`,
          detail: `${judge.say(row.need)} is needed across: part, allowances, the skin to take off both sides and the bar's bow; the bar may be as thin as ${judge.say(section.thickness.least)}.`,
          numbers: [
            lengthInput('needed', row.need),
            lengthInput('thinnest bar', section.thickness.least),
            lengthInput('short by', row.shortBy),
          ],
          features: [
            { kind: 'part', id: row.partId },
            { kind: 'bar', id: section.barId.value },
          ],
          fixes: bar === null ? [] : [buildBarFix(bar, judge, `${judge.say(bar.thickness)} thick`)],
        },
      ];
    }
    const drafts: Draft[] = [];
    const thinSide = Math.min(row.cleanup.fixedSide, row.cleanup.movingSide);
    // Where the bar is thick enough, what is short is the place of the part in it.
    const isMisplaced = row.shortBy > SAME_LENGTH;
    if (isMisplaced || thinSide < section.skinPerSide.value - 1e-6) {
      drafts.push({
        code: 'skin-left-on',
        about: row.partId,
        severity: isMisplaced ? 'stop' : 'check',
        sentence:
          thinSide < 0
            ? `${name}: placed as it is, it reaches ${judge.sayUnit(-thinSide)} out of the bar on one side.`
            : `${name}: only ${judge.sayUnit(thinSide)} comes off one side; ${judge.say(section.skinPerSide.value)} of skin must go from both.`,
        numbers: [lengthInput('thin side', thinSide), lengthInput('skin to take off', section.skinPerSide.value)],
        features: [{ kind: 'part', id: row.partId }],
        fixes: [{ label: 'Centre the part in the bar', edits: [{ path: ['cleanup', 'fromFixedJaw'], value: 'auto' }] }],
      });
    }
    if (row.oneSided) {
      drafts.push({
        code: 'one-sided-removal',
        about: row.partId,
        severity: 'check',
        sentence: `${name}: ${judge.sayUnit(row.cleanup.fixedSide)} comes off the fixed side and ${judge.say(row.cleanup.movingSide)} off the moving side; metal taken from one side bends when it is released.`,
        numbers: [
          lengthInput('off the fixed side', row.cleanup.fixedSide),
          lengthInput('off the moving side', row.cleanup.movingSide),
        ],
        features: [{ kind: 'part', id: row.partId }],
        fixes: [{ label: 'Centre the part in the bar', edits: [{ path: ['cleanup', 'fromFixedJaw'], value: 'auto' }] }],
      });
    }
    return drafts;
  });
}

/** A face that stays as the bar came must be in size at both ends of the bar's tolerance. */
function judgeAsSupplied(judge: Judge): Draft[] {
  const { section } = judge.judged;
  if (section === null) return [];
  return judge.plan.parts.flatMap((part): Draft[] => {
    const pairs = [
      {
        word: 'thickness',
        faces: ['fixedSide', 'movingSide'],
        size: part.thickness,
        tolerance: part.thicknessTolerance,
        bar: section.thickness,
      },
      {
        word: 'height',
        faces: ['top', 'bottom'],
        size: part.height,
        tolerance: part.heightTolerance,
        bar: section.height,
      },
    ] as const;
    return pairs.flatMap(({ word, faces, size, tolerance, bar }): Draft[] => {
      if (tolerance === null || !faces.every((face) => part.asSupplied.includes(face))) return [];
      const under = size - tolerance.minus - bar.least;
      const over = bar.most - (size + tolerance.plus);
      if (under <= 1e-9 && over <= 1e-9) return [];
      const name = getPartName(judge.plan, part.id);
      return [
        {
          code: 'as-supplied-out-of-size',
          about: `${part.id}.${word}`,
          severity: 'check',
          sentence: `${name}: its ${word} is left as the bar comes, but the bar may be ${judge.say(bar.least)} to ${judge.say(bar.most)} and the part must be ${judge.say(size - tolerance.minus)} to ${judge.sayUnit(size + tolerance.plus)}.`,
          detail: 'Take the next size and mill it.',
          numbers: [
            lengthInput('smallest bar', bar.least),
            lengthInput('largest bar', bar.most),
            lengthInput('size wanted', size),
          ],
          features: [
            { kind: 'part', id: part.id },
            { kind: 'bar', id: section.barId.value },
          ],
        },
      ];
    });
  });
}

function judgeOpening(judge: Judge): Draft[] {
  const { section } = judge.judged;
  const vise = [...judge.plan.library.vises, ...judge.shop.vises].find(
    (entry) => entry.id === judge.plan.holding.viseId,
  );
  if (section === null || vise === undefined || section.thickness.most <= vise.maxOpening + SAME_LENGTH) return [];
  const bar = findBar(judge, (row) => row.thickness <= vise.maxOpening);
  return [
    {
      code: 'opening-too-small',
      severity: 'stop',
      sentence: `The ${vise.name} opens ${judge.sayUnit(vise.maxOpening)}; the bar is ${echoBoth(section.thickness.nominal)} across.`,
      numbers: [lengthInput('opening', vise.maxOpening), lengthInput('bar across', section.thickness.nominal)],
      features: [
        { kind: 'vise', id: '0' },
        { kind: 'bar', id: section.barId.value },
      ],
      fixes: bar === null ? [] : [buildBarFix(bar, judge, `${judge.say(bar.thickness)} across`)],
    },
  ];
}

/** A size that grips more and costs less than the one chosen. */
function judgePriceStep(judge: Judge): Draft[] {
  const chosen = judge.judged.sections.find((row) => row.chosen);
  const chosenCost = chosen?.cost;
  if (chosen === undefined || chosenCost == null) return [];
  const better = findBar(
    judge,
    (row) => row.cost !== null && row.cost < chosenCost && row.gripLeast >= chosen.gripLeast,
  );
  if (better === null || better.cost === null) return [];
  return [
    {
      code: 'cheaper-and-deeper',
      severity: 'note',
      sentence: `The ${better.name} bar costs ${judge.sayKind(chosenCost - better.cost, 'money')} less and grips ${judge.sayUnit(better.grip)} instead of ${judge.say(chosen.grip)}.`,
      features: [{ kind: 'bar', id: chosen.barId }],
      fixes: [buildBarFix(better, judge, `grip ${judge.say(better.grip)}`)],
    },
  ];
}

function judgeStocked(judge: Judge): Draft[] {
  const { order, section } = judge.judged;
  if (order === null || section === null) return [];
  const bar = [...judge.plan.library.bars, ...judge.shop.bars].find((entry) => entry.id === section.barId.value);
  const special = order.purchase.filter((line) =>
    bar?.lengths.some((length) => length.id === line.lengthId && !length.stocked),
  );
  const first = special[0];
  if (bar === undefined || first === undefined) return [];
  return [
    {
      code: 'not-stocked',
      severity: 'check',
      sentence: `The ${bar.name} bar in ${judge.sayUnit(first.length)} is not stocked: a special run is dearer and slower than its price says.`,
      features: [{ kind: 'order', id: first.lengthId }],
    },
  ];
}
