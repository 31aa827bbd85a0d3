import { PANE_TITLES } from '../bench/pane-titles';
import type { PaneName, Rect } from '../bench/panes';
import type { OpenPanels } from '../shell/open-panels';

type Tag = 'div' | 'header' | 'main' | 'aside' | 'section' | 'h2' | 'span' | 'canvas';

/** An element of the page's own classes, so that what follows finds everything in its place. */
export function build<T extends Tag>(
  tag: T,
  className: string,
  ...children: (Node | string)[]
): HTMLElementTagNameMap[T] {
  const element = document.createElement(tag);
  element.className = className;
  element.append(...children);
  return element;
}

/** Puts an element at a place of its parent, px. */
export function place<T extends HTMLElement>(element: T, { left, top, width, height }: Rect): T {
  Object.assign(element.style, { left: `${left}px`, top: `${top}px`, width: `${width}px`, height: `${height}px` });
  return element;
}

/** The window without anything in it but the room of the Bench. */
export function buildFrame(room: HTMLElement, { leftOpen, rightOpen }: OpenPanels): HTMLElement {
  const buildPanel = (side: 'left' | 'right', isOpen: boolean): HTMLElement =>
    build('aside', `side-panel is-${side}${isOpen ? '' : ' is-folded'}`, build('header', 'side-head'));
  const page = build(
    'div',
    'bench-page',
    buildPanel('left', leftOpen),
    build('div', 'bench-centre', build('div', 'bench-board', build('div', 'bench-stock'), room)),
    buildPanel('right', rightOpen),
  );
  const frame = build(
    'div',
    'frame',
    build('header', 'top-bar'),
    build('main', 'pages', build('div', 'page', page)),
    build('section', 'strip'),
  );
  // For the eye alone: what it shows is read out when it can be worked with.
  frame.setAttribute('aria-hidden', 'true');
  return frame;
}

export function buildHeading(pane: PaneName, scale: string): HTMLElement {
  return build('header', 'bench-heading', build('h2', '', PANE_TITLES[pane]), build('span', 'bench-scale', scale));
}
