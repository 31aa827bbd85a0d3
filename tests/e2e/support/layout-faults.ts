/**
 * What is wrong with how the page is laid out: text over text, text cut off without an ellipsis, a window that scrolls.
 * Runs in the page, so it can use nothing from outside itself.
 */
export function findLayoutFaults(): string[] {
  const faults: string[] = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth || root.scrollHeight > root.clientHeight) faults.push('the window scrolls');

  // What a dialog or a list lies over is inert while that is open.
  const isHidden = (element: Element): boolean =>
    !element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) ||
    element.closest('.visually-hidden, [inert]') !== null;

  /** The head of a table that scrolls, which covers the rows that pass under it. */
  const isStuck = (element: Element): boolean => {
    const cell = element.closest('th');
    return cell !== null && getComputedStyle(cell).position === 'sticky';
  };

  /** The part of a box that is seen: what scrolls or clips round it takes the rest away. */
  const getSeen = (box: DOMRect, element: Element): DOMRect => {
    let { left, top, right, bottom } = box;
    for (let at: Element | null = element; at !== null; at = at.parentElement) {
      if (getComputedStyle(at).overflow === 'visible') continue;
      const frame = at.getBoundingClientRect();
      left = Math.max(left, frame.left);
      top = Math.max(top, frame.top);
      right = Math.min(right, frame.right);
      bottom = Math.min(bottom, frame.bottom);
    }
    return new DOMRect(left, top, Math.max(0, right - left), Math.max(0, bottom - top));
  };

  const texts: { node: Node; text: string; box: DOMRect; isStuck: boolean }[] = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    const element = node.parentElement;
    const text = node.textContent?.trim() ?? '';
    if (element === null || text === '' || element.closest('svg, script, style, option') !== null) continue;
    if (isHidden(element)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const rect of range.getClientRects()) {
      const box = getSeen(rect, element);
      if (box.width > 2 && box.height > 2) texts.push({ node, text, box, isStuck: isStuck(element) });
    }
  }
  texts.forEach((one, index) => {
    for (const other of texts.slice(index + 1)) {
      // A text with an ellipsis has two boxes, one over the other.
      if (one.node === other.node || one.isStuck !== other.isStuck) continue;
      const width = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
      const height = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
      if (width > 2 && height > 5) faults.push(`"${one.text.slice(0, 40)}" lies over "${other.text.slice(0, 40)}"`);
    }
  });

  for (const element of document.querySelectorAll('header *, button, label, th, td, h1, h2, h3, p, dt, dd')) {
    const style = getComputedStyle(element);
    if (element.clientWidth <= 4 || isHidden(element) || element.closest('svg') !== null) continue;
    if (element.scrollWidth > element.clientWidth + 1 && style.textOverflow !== 'ellipsis') {
      faults.push(`"${element.textContent.slice(0, 40)}" is wider than its ${element.tagName.toLowerCase()}`);
    }
  }
  return faults;
}
