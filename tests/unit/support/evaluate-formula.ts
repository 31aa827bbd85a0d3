import type { WhyInput } from '../../../shared/engine/figure';
import type { QuantityKind } from '../../../shared/units/quantity';

/** What one stored unit of each kind is in SI units; formulas of mechanics hold in those. */
const SI: Readonly<Partial<Record<QuantityKind, number>>> = {
  length: 1e-3,
  area: 1e-6,
  volume: 1e-9,
  sectionModulus: 1e-9,
  secondMoment: 1e-12,
  areaRate: 1e-6 / 60,
  moment: 1e-3,
  stress: 1e6,
  power: 1e3,
  time: 60,
  speed: 1 / 60,
  feed: 1e-3 / 60,
  spindleSpeed: 1 / 60,
  percent: 0.01,
};

/** A value in its stored unit as SI. */
export function toSi(value: number, kind: QuantityKind | 'text'): number {
  return kind === 'text' ? Number.NaN : value * (SI[kind] ?? 1);
}

/** One equation of a formula text: the name on its left and the sum on its right. */
export interface Equation {
  name: string;
  right: string;
}

/** The equations of a formula text, parted by commas before the next left side. A limit behind `<=` is left out. */
export function getEquations(formula: string): Equation[] {
  return formula.split(/, (?=[^,()=]+ = )/u).flatMap((one) => {
    const at = one.indexOf(' = ');
    if (at < 0) return [];
    return [{ name: one.slice(0, at).trim(), right: one.slice(at + 3).split(/ [<>]= /u)[0] ?? '' }];
  });
}

type Token = { kind: 'number'; value: number } | { kind: 'call'; name: string } | { kind: 'sign'; text: string };

const FUNCTIONS: Readonly<Record<string, (...values: number[]) => number>> = {
  min: Math.min,
  max: Math.max,
  // Rounding of the last place must not cost a step.
  floor: (value) => Math.floor(value + 1e-9),
  ceil: (value) => Math.ceil(value - 1e-9),
  round: Math.round,
  sec: (value) => 1 / Math.cos(value),
  tan: Math.tan,
  '√': Math.sqrt,
  '∛': Math.cbrt,
};

const POWERS: Readonly<Record<string, number>> = { '²': 2, '³': 3, '⁴': 4 };

/**
 * The value of the right side of an equation, a recursive descent over sums, products (a space multiplies), powers and calls.
 *
 * @param inputs by name, in SI units
 * @throws SyntaxError for a name that is not an input, or what is no formula
 */
export function evaluateFormula(right: string, inputs: ReadonlyMap<string, number>): number {
  const tokens = tokenize(right, inputs);
  let at = 0;
  const peek = (): Token | undefined => tokens[at];
  const isSign = (...texts: string[]): boolean => {
    const token = peek();
    return token?.kind === 'sign' && texts.includes(token.text);
  };
  const take = (text: string): void => {
    if (!isSign(text)) throw new SyntaxError(`${text} expected in ${right}`);
    at += 1;
  };
  const startsFactor = (): boolean => peek()?.kind === 'number' || peek()?.kind === 'call' || isSign('(');

  function sum(): number {
    let value = product();
    while (isSign('+', '-')) {
      const isMinus = isSign('-');
      at += 1;
      value += isMinus ? -product() : product();
    }
    return value;
  }
  function product(): number {
    let value = power();
    for (;;) {
      if (isSign('/', '×')) {
        const isOver = isSign('/');
        at += 1;
        value = isOver ? value / power() : value * power();
      } else if (startsFactor()) value *= power();
      else return value;
    }
  }
  function power(): number {
    const base = factor();
    const token = peek();
    if (token?.kind !== 'sign') return base;
    const exponent = POWERS[token.text];
    if (exponent !== undefined) {
      at += 1;
      return base ** exponent;
    }
    if (token.text !== '^') return base;
    at += 1;
    return base ** factor();
  }
  function factor(): number {
    const token = peek();
    at += 1;
    if (token?.kind === 'number') return token.value;
    if (token?.kind === 'sign' && token.text === '-') return -factor();
    if (token?.kind === 'sign' && token.text === '(') {
      const value = sum();
      take(')');
      return value;
    }
    if (token?.kind === 'call') return call(token.name);
    throw new SyntaxError(`a number expected in ${right}`);
  }
  function call(name: string): number {
    const apply = FUNCTIONS[name];
    if (apply === undefined) throw new SyntaxError(`${name} is not known in ${right}`);
    if (!isSign('(')) return apply(factor());
    take('(');
    const values = [sum()];
    while (isSign(',')) {
      at += 1;
      values.push(sum());
    }
    take(')');
    return apply(...values);
  }

  const value = sum();
  if (at < tokens.length) throw new SyntaxError(`${right} does not end where it should`);
  return value;
}

/** The SI values of a figure's inputs by name; words are left out. */
export function getInputsBySymbol(inputs: readonly WhyInput[]): Map<string, number> {
  return new Map(
    inputs.flatMap(({ name, value, kind }): [string, number][] =>
      typeof value === 'number' ? [[name, toSi(value, kind)]] : [],
    ),
  );
}

const LETTER = /[\p{L}0-9₀-₉.]/u;

/** Longest name first, so that `least ledge` is not `ledge`. */
function tokenize(text: string, inputs: ReadonlyMap<string, number>): Token[] {
  const names = [...inputs.keys()].sort((a, b) => b.length - a.length);
  const calls = Object.keys(FUNCTIONS);
  const tokens: Token[] = [];
  let at = 0;
  const isWhole = (word: string): boolean => {
    if (!text.startsWith(word, at)) return false;
    const last = word.at(-1) ?? '';
    return !LETTER.test(last) || !LETTER.test(text[at + word.length] ?? ' ');
  };
  while (at < text.length) {
    const rest = text.slice(at);
    const name = names.find(isWhole);
    const call = calls.find((one) => (one.length === 1 ? rest.startsWith(one) : isWhole(one)));
    const number = /^[0-9]+(\.[0-9]+)?/u.exec(rest)?.[0];
    if (/^\s/u.test(rest)) at += 1;
    else if (name !== undefined) {
      tokens.push({ kind: 'number', value: inputs.get(name) ?? Number.NaN });
      at += name.length;
    } else if (rest.startsWith('π')) {
      tokens.push({ kind: 'number', value: Math.PI });
      at += 1;
    } else if (call !== undefined) {
      tokens.push({ kind: 'call', name: call });
      at += call.length;
    } else if (number !== undefined) {
      const isMm = / mm\b/u.test(rest.slice(number.length, number.length + 4));
      tokens.push({ kind: 'number', value: Number(number) * (isMm ? 1e-3 : 1) });
      at += number.length + (isMm ? 3 : 0);
    } else if ('+-/×(),^²³⁴'.includes(text[at] ?? '')) {
      tokens.push({ kind: 'sign', text: text[at] ?? '' });
      at += 1;
    } else throw new SyntaxError(`nothing is known of ${rest} in ${text}`);
  }
  return tokens;
}
