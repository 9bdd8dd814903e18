/** An element of an XML text. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  /** The text directly inside. */
  readonly text: string;
}

interface Open extends Element {
  readonly children: Element[];
  text: string;
}

const TOKEN =
  /<!--[\s\S]*?-->|<!\[CDATA\[([\s\S]*?)\]\]>|<\?[\s\S]*?\?>|<!DOCTYPE[^[>]*(?:\[[\s\S]*?\])?[^>]*>|<\/([^\s>]+)\s*>|<([^\s/>]+)((?:"[^"]*"|'[^']*'|[^"'>])*)>|([^<]+)/y;
const ATTRIBUTE = /([^\s=/]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g;
const NAMED: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
};

const plain = (text: string): string =>
  text.replace(/&(?:#x([0-9a-f]+)|#(\d+)|(\w+));/gi, (whole, hex, decimal, name) => {
    if (name) return NAMED[name] ?? whole;
    const code = hex ? Number.parseInt(hex, 16) : Number(decimal);
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });

/**
 * The root element of an XML text; null where the text is not well formed. For what a picture says of itself, in a
 * worker too, where browsers offer no reader. Names keep their prefix, and entities of a DTD are not known.
 */
export function readXml(text: string): Element | null {
  const root: Open = { name: '', attributes: {}, children: [], text: '' };
  const open: Open[] = [root];
  TOKEN.lastIndex = text.startsWith('\ufeff') ? 1 : 0;
  while (TOKEN.lastIndex < text.length) {
    const token = TOKEN.exec(text);
    if (!token) return null;
    const [, data, ends, begins, rest = '', words] = token;
    const inside = open.at(-1)!;
    if (words !== undefined) inside.text += plain(words);
    else if (data !== undefined) inside.text += data;
    else if (ends !== undefined) {
      if (open.length < 2 || open.pop()!.name !== ends) return null;
    } else if (begins !== undefined) {
      const attributes: Record<string, string> = {};
      for (const [, key, double, single] of rest.matchAll(ATTRIBUTE))
        attributes[key!] = plain(double ?? single ?? '');
      const element: Open = { name: begins, attributes, children: [], text: '' };
      inside.children.push(element);
      if (!rest.trimEnd().endsWith('/')) open.push(element);
    }
  }
  return open.length === 1 && root.children.length === 1 ? root.children[0]! : null;
}
