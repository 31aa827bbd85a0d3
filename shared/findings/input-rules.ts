import { LARGEST_QUANTITY, LARGEST_SIZE } from '../engine/context';
import type { Part } from '../model/plan';
import type { Draft, Judge } from './judge';
import { getPartName } from './judge';

const SIZE_WORDS = [
  ['length', 'length'],
  ['height', 'height'],
  ['thickness', 'thickness'],
] as const;

/** What is missing or cannot be right in what was entered. */
export function judgeInput(judge: Judge): Draft[] {
  return [...judgeParts(judge), ...judgeEntries(judge), ...judgeBarsOnOffer(judge)];
}

function judgeParts(judge: Judge): Draft[] {
  const { plan } = judge;
  if (plan.parts.length === 0) {
    return [
      {
        code: 'no-parts',
        severity: 'stop',
        sentence: 'There are no parts yet: add the first one in the parts table.',
        features: [{ kind: 'field', id: 'parts' }],
      },
    ];
  }
  return plan.parts.flatMap((part, index) => [...judgeSize(judge, part, index), ...judgeShape(judge, part, index)]);
}

function judgeSize(judge: Judge, part: Part, index: number): Draft[] {
  const name = getPartName(judge.plan, part.id);
  const drafts: Draft[] = SIZE_WORDS.filter(([key]) => !(part[key] > 0 && part[key] <= LARGEST_SIZE)).map(
    ([key, word]) => ({
      code: 'part-size',
      about: `${part.id}.${key}`,
      severity: 'stop',
      sentence:
        part[key] > LARGEST_SIZE
          ? `${name}: its ${word} is over a kilometre, which no bar is.`
          : `${name}: its ${word} must be more than 0.`,
      features: [{ kind: 'field', id: `parts.${index}.${key}` }],
    }),
  );
  const isCount = Number.isSafeInteger(part.quantity) && part.quantity > 0;
  if (!isCount || part.quantity > LARGEST_QUANTITY) {
    drafts.push({
      code: 'part-quantity',
      about: part.id,
      severity: 'stop',
      sentence: isCount
        ? `${name}: its quantity is over a million, more than can be planned at once.`
        : `${name}: its quantity must be a whole number of 1 or more.`,
      features: [{ kind: 'field', id: `parts.${index}.quantity` }],
    });
  }
  return drafts;
}

function judgeShape(judge: Judge, part: Part, index: number): Draft[] {
  const name = getPartName(judge.plan, part.id);
  const drafts: Draft[] = [];
  part.stations.forEach((station, at) => {
    const widest = Math.max(station.width, station.widthEnd);
    const outside = station.from < 0 || station.to > part.length || station.from >= station.to;
    if (!outside && widest <= part.thickness) return;
    drafts.push({
      code: 'station-outside-part',
      about: `${part.id}.${at}`,
      severity: 'check',
      sentence: outside
        ? `${name}: station ${at + 1} must run from left to right within the part's ${judge.sayUnit(part.length)}.`
        : `${name}: station ${at + 1} is ${judge.sayUnit(widest)} wide, more than the part's thickness of ${judge.say(part.thickness)}.`,
      features: [
        { kind: 'field', id: `parts.${index}.stations.${at}` },
        { kind: 'part', id: part.id },
      ],
    });
  });
  part.holes.forEach((hole, at) => {
    const half = hole.diameter / 2 + hole.slotLength / 2;
    if (hole.diameter > 0 && hole.x - half >= 0 && hole.x + half <= part.length) return;
    drafts.push({
      code: 'hole-outside-part',
      about: `${part.id}.${hole.id}`,
      severity: 'check',
      sentence: `${name}: hole ${at + 1} must lie within the part's ${judge.sayUnit(part.length)} and have a diameter of more than 0.`,
      features: [
        { kind: 'field', id: `parts.${index}.holes.${at}` },
        { kind: 'part', id: part.id },
      ],
    });
  });
  return drafts;
}

/** The plan names an entry that neither it nor the shop holds. */
function judgeEntries(judge: Judge): Draft[] {
  const { plan, shop } = judge;
  const wanted: [string, string, string, readonly { id: string }[]][] = [
    ['material', plan.stock.materialId, 'stock.materialId', [...plan.library.materials, ...shop.materials]],
    ['vise', plan.holding.viseId, 'holding.viseId', [...plan.library.vises, ...shop.vises]],
    ['jaw set', plan.holding.jawSetId, 'holding.jawSetId', [...plan.library.jawSets, ...shop.jawSets]],
    ['saw', plan.order.sawId, 'order.sawId', [...plan.library.saws, ...shop.saws]],
    ...plan.cuts
      .filter((cut) => cut.toolId !== '')
      .map((cut): [string, string, string, readonly { id: string }[]] => [
        `tool of "${cut.name}"`,
        cut.toolId,
        `cuts.${plan.cuts.indexOf(cut)}.toolId`,
        [...plan.library.tools, ...shop.tools],
      ]),
  ];
  return wanted
    .filter(([, id, , entries]) => !entries.some((entry) => entry.id === id))
    .map(([word, , path]) => ({
      code: 'entry-missing',
      about: path,
      severity: 'stop',
      sentence: `The ${word} this plan names is neither in the plan nor in the shop: choose another.`,
      features: [{ kind: 'field', id: path }],
    }));
}

function judgeBarsOnOffer(judge: Judge): Draft[] {
  const { plan, shop, judged } = judge;
  const material = [...plan.library.materials, ...shop.materials].find((entry) => entry.id === plan.stock.materialId);
  if (material === undefined) return [];
  const onOffer = [...plan.library.bars, ...shop.bars].filter((bar) => bar.materialId === material.id);
  if (onOffer.length === 0) {
    return [
      {
        code: 'no-bars-on-offer',
        severity: 'stop',
        sentence: `No bar of ${material.name} is on offer: add one to the shop, or choose another material.`,
        features: [{ kind: 'field', id: 'stock.materialId' }],
      },
    ];
  }
  const usable = judged.sections.some((row) => row.fitsWorst);
  if (usable || judged.sections.length === 0) return [];
  return [
    {
      code: 'nothing-fits',
      severity: 'stop',
      sentence: `No bar of ${material.name} on offer takes these parts in this setup: ${describeTooLarge(judge)}.`,
      detail: judged.sections[0]?.reason ?? '',
      features: [{ kind: 'field', id: 'stock.barId' }],
    },
  ];
}

/** Names the part that is too large, where one alone rules every bar out; else what the nearest bar lacks. */
function describeTooLarge(judge: Judge): string {
  const tallest = Math.max(...judge.judged.sections.map((row) => row.height));
  const thickest = Math.max(...judge.judged.sections.map((row) => row.thickness));
  const part =
    judge.plan.parts.find((candidate) => candidate.height >= tallest) ??
    judge.plan.parts.find((candidate) => candidate.thickness >= thickest);
  if (part === undefined) {
    const nearest = judge.judged.sections.find((row) => row.chosen) ?? judge.judged.sections[0];
    return `the nearest, ${nearest?.name}, is ${nearest?.reason}`;
  }
  return `${getPartName(judge.plan, part.id)} at ${judge.say(part.height)} × ${judge.sayUnit(part.thickness)} is larger than the largest bar`;
}
