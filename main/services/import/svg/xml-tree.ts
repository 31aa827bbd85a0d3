import { SaxesParser, type SaxesTagPlain } from 'saxes';
import { ExpectedProblem } from '../../expected-problem';

export interface XmlElement {
  /** Name without its prefix. */
  name: string;
  attributes: Readonly<Record<string, string>>;
  children: XmlElement[];
}

const MOST_ELEMENTS = 100_000;
const DEEPEST = 256;

/**
 * Reads XML into its elements; text between them is left out. Nothing is ever fetched, and entities of the document's own
 * are not put in, so that a few of them cannot grow into gigabytes.
 *
 * @throws ExpectedProblem when the text is no well-formed XML or holds more than is read
 */
export function parseXmlTree(text: string, name: string): XmlElement {
  const parser = new SaxesParser();
  const open: XmlElement[] = [];
  let root: XmlElement | null = null;
  let count = 0;
  let hasOwnEntities = false;
  parser.on('doctype', (doctype) => {
    hasOwnEntities = doctype.includes('<!ENTITY');
  });
  parser.on('error', (error) => {
    if (hasOwnEntities && error.message.includes('entity')) return;
    throw new ExpectedProblem(
      'outline-damaged',
      `${name} is damaged or cut short: its XML breaks off or is not well formed at line ${parser.line}.`,
      name,
    );
  });
  parser.on('opentag', (tag: SaxesTagPlain) => {
    count += 1;
    if (count > MOST_ELEMENTS || open.length > DEEPEST) {
      throw new ExpectedProblem('outline-too-large', `${name} holds more than is read of a drawing.`, name);
    }
    const element = { name: getLocalName(tag.name), attributes: tag.attributes, children: [] };
    open.at(-1)?.children.push(element);
    root ??= element;
    open.push(element);
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.write(text).close();
  if (root === null) throw new ExpectedProblem('outline-not-svg', `${name} holds no drawing.`, name);
  return root;
}

function getLocalName(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}
