import { describe, expect, it } from 'vitest';
import type { Mark, View } from '../../../shared/drawing/marks';
import { getCircle, getRectangle } from '../../../shared/drawing/paths';
import { escapeDxf, toDxf } from '../../../shared/drawing/sinks/dxf';
import { escapeXml, toSvg } from '../../../shared/drawing/sinks/svg';
import { readDxf } from '../support/read-dxf';

const hostile = `<a href="x">&'\u0000\u001b]]> %%c ^J \\U+0041 ⌀ ½ Ж 漢 😀`;

function buildSmallView(): View {
  const marks: Mark[] = [
    {
      kind: 'path',
      layer: 'part',
      feature: { kind: 'part', id: 'a&b' },
      segments: getRectangle(0, 0, 20, 10),
      pen: 'wide',
      fill: 'part',
    },
    { kind: 'path', layer: 'bore', feature: null, segments: getCircle(5, 5, 2), pen: 'narrow', fill: 'paper' },
    {
      kind: 'path',
      layer: 'stop',
      feature: null,
      segments: [
        { op: 'move', x: 12, y: 2 },
        { op: 'line', x: 16, y: 2 },
        { op: 'arc', cx: 16, cy: 4, radius: 2, start: -Math.PI / 2, end: Math.PI / 2 },
        { op: 'close' },
      ],
      pen: 'dashed',
      fill: 'none',
    },
    {
      kind: 'text',
      layer: 'dimension',
      feature: null,
      at: { x: 10, y: 12 },
      text: '20.00',
      size: 2.5,
      anchor: 'middle',
      angle: 0,
      weight: 'regular',
    },
  ];
  return { name: 'part', title: 'Small', bounds: { left: -1, right: 21, bottom: -1, top: 16 }, mmPerPaperMm: 1, marks };
}

describe('SVG', () => {
  it('draws a small view like this', () => {
    expect(toSvg(buildSmallView())).toMatchInlineSnapshot(`
      "<svg xmlns="http://www.w3.org/2000/svg" width="22mm" height="17mm" viewBox="-1 0 22 17" font-family="'IBM Plex Sans', 'DejaVu Sans', sans-serif">
      <title>Small</title>
      <path class="part fill-part" data-feature="part:a&amp;b" d="M0 16L20 16L20 6L0 6Z" fill="#fdf8e8" fill-rule="evenodd"/>
      <path class="part pen-wide" data-feature="part:a&amp;b" d="M0 16L20 16L20 6L0 6Z" fill="none" stroke="#1b2430" stroke-width="0.5" stroke-linejoin="round"/>
      <path class="bore fill-paper" d="M7 11A2 2 0 0 0 3 11A2 2 0 0 0 7 11Z" fill="#ffffff" fill-rule="evenodd"/>
      <path class="bore pen-narrow" d="M7 11A2 2 0 0 0 3 11A2 2 0 0 0 7 11Z" fill="none" stroke="#1b2430" stroke-width="0.25" stroke-linejoin="round"/>
      <path class="stop pen-dashed" d="M12 14L16 14A2 2 0 0 0 16 10Z" fill="none" stroke="#1b2430" stroke-width="0.25" stroke-linejoin="round" stroke-dasharray="1.8 0.9"/>
      <text class="dimension" x="10" y="4" font-size="3.5817" text-anchor="middle" textLength="9.5702" lengthAdjust="spacingAndGlyphs" fill="#1b2430">20.00</text>
      </svg>
      "
    `);
  });

  it('is in true size: one user unit is one mm of the drawing', () => {
    expect(toSvg(buildSmallView())).toContain('width="22mm" height="17mm" viewBox="-1 0 22 17"');
  });

  it('escapes whatever stands in a text', () => {
    expect(escapeXml(hostile)).toBe('&lt;a href=&quot;x&quot;&gt;&amp;&#39;]]&gt; %%c ^J \\U+0041 ⌀ ½ Ж 漢 😀');
  });
});

describe('DXF', () => {
  const read = readDxf(toDxf(buildSmallView()));

  it('says that its units are mm', () => {
    expect(read.header.get('$INSUNITS')).toBe('4');
    expect(read.header.get('$ACADVER')).toBe('AC1015');
  });

  it('keeps true coordinates, arcs as arcs and circles as circles', () => {
    const outline = read.entities.find((entity) => entity.type === 'LWPOLYLINE' && entity.layer === 'PART');
    expect(outline?.points).toEqual([
      [0, 0],
      [20, 0],
      [20, 10],
      [0, 10],
    ]);
    const circle = read.entities.find((entity) => entity.type === 'CIRCLE');
    expect(circle?.numbers(10, 20, 40)).toEqual([5, 5, 2]);
    const arc = read.entities.find((entity) => entity.type === 'ARC');
    expect(arc?.numbers(10, 20, 40, 50, 51)).toEqual([16, 4, 2, 270, 90]);
  });

  it('names each layer by what it holds, and only those in use', () => {
    expect(read.layers).toEqual(['0', 'PART', 'BORE', 'STOP', 'DIMENSION']);
  });

  it('gives every object a handle of its own below the seed', () => {
    const handles = read.handles.map((handle) => Number.parseInt(handle, 16));
    expect(new Set(handles).size).toBe(handles.length);
    expect(Math.max(...handles)).toBeLessThan(Number.parseInt(read.header.get('$HANDSEED') ?? '0', 16));
  });

  it('writes text in ASCII alone, with signs that mean something else escaped', () => {
    expect(escapeDxf(hostile)).toBe(
      '<a href="x">&\' ]]> %%%%%%c ^ J \\U+005CU+0041 \\U+2300 \\U+00BD \\U+0416 \\U+6F22 \\U+D83D\\U+DE00',
    );
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the range is the point of the test
    expect(toDxf(buildSmallView())).toMatch(/^[\u0000-\u007f]*$/u);
  });
});
