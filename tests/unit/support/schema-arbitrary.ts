import fc from 'fast-check';
import { z } from 'zod';

/** The parts of a JSON schema that a plan or a shop is told in. */
interface JsonSchema {
  type?: string;
  const?: unknown;
  enum?: unknown[];
  anyOf?: JsonSchema[];
  oneOf?: JsonSchema[];
  properties?: Record<string, JsonSchema>;
  items?: JsonSchema;
  maxItems?: number;
  minLength?: number;
  minimum?: number;
  maximum?: number;
  exclusiveMinimum?: number;
  exclusiveMaximum?: number;
}

export interface SchemaArbitraryOptions {
  /** What a text field of this name may say, besides a few texts of its own. */
  texts: Readonly<Record<string, readonly string[]>>;
  /** What stands under a name whatever its schema says. */
  given: Readonly<Record<string, fc.Arbitrary<unknown>>>;
  /** Where most numbers of this name lie, so that things fit each other often enough; within the schema's limits. */
  usual: Readonly<Record<string, readonly [least: number, most: number]>>;
  /** Longest list made. */
  longest: number;
}

/** Anything that a schema lets through: usual numbers mostly, and its extremes. What a refinement asks besides has to be filtered. */
export function getSchemaArbitrary(schema: z.ZodType, options: SchemaArbitraryOptions): fc.Arbitrary<unknown> {
  return build(z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }) as JsonSchema, '', options);
}

function build(schema: JsonSchema, name: string, options: SchemaArbitraryOptions): fc.Arbitrary<unknown> {
  const given = options.given[name];
  if (given !== undefined) return given;
  if ('const' in schema) return fc.constant(schema.const);
  if (schema.enum !== undefined) return fc.constantFrom(...schema.enum);
  const either = schema.anyOf ?? schema.oneOf;
  if (either !== undefined) return fc.oneof(...either.map((one) => build(one, name, options)));
  switch (schema.type) {
    case 'object':
      return fc.record(
        Object.fromEntries(
          Object.entries(schema.properties ?? {}).map(([key, inner]) => [key, build(inner, key, options)]),
        ),
      );
    case 'array': {
      const maxLength = Math.min(options.longest, schema.maxItems ?? options.longest);
      const entry = build(schema.items ?? {}, name, options);
      // No file that can be read holds two things of one id.
      return schema.items?.properties?.id === undefined
        ? fc.array(entry, { maxLength })
        : fc.uniqueArray(entry, { maxLength, selector: (one) => (one as { id: string }).id });
    }
    case 'number':
      return buildNumber(schema, options.usual[name]);
    case 'integer':
      return buildInteger(schema);
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    case 'string': {
      const own = (schema.minLength ?? 0) > 0 ? ['a', 'b', 'c'] : ['', 'a', 'b'];
      const known = options.texts[name];
      return known === undefined
        ? fc.constantFrom(...own)
        : fc.oneof({ weight: 5, arbitrary: fc.constantFrom(...known) }, fc.constantFrom(...own));
    }
    default:
      throw new Error(`nothing is known of ${JSON.stringify(schema).slice(0, 80)}`);
  }
}

const USUAL_MOST = 300;

function buildNumber(schema: JsonSchema, among: readonly [number, number] | undefined): fc.Arbitrary<number> {
  const { minimum, exclusiveMinimum, maximum, exclusiveMaximum } = schema;
  const least = minimum ?? exclusiveMinimum ?? Number.NEGATIVE_INFINITY;
  const isOpen = minimum === undefined && exclusiveMinimum !== undefined;
  const most = maximum ?? exclusiveMaximum ?? 1e9;
  const usual = getEven(Math.max(least, -USUAL_MOST), Math.max(least, Math.min(most, USUAL_MOST))).filter(
    (value) => !isOpen || value > least,
  );
  const edges = [isOpen ? least + Number.EPSILON : least, isOpen ? 1e-300 : least + 1e-9, maximum ?? most * 0.999];
  const legal = edges.filter(
    (edge) => Number.isFinite(edge) && edge <= most && (isOpen ? edge > least : edge >= least),
  );
  const common = among === undefined ? usual : getEven(...among);
  return fc.oneof({ weight: 24, arbitrary: common }, usual, ...legal.map((edge) => fc.constant(edge)));
}

/** Numbers spread evenly over a range; left to itself fast-check draws most of them next to nothing. */
function getEven(least: number, most: number): fc.Arbitrary<number> {
  const steps = 100_000;
  return fc.integer({ min: 0, max: steps }).map((step) => least + ((most - least) * step) / steps);
}

function buildInteger({ minimum = -1000, maximum = 1e6 }: JsonSchema): fc.Arbitrary<number> {
  const usual = fc.integer({ min: minimum, max: Math.min(maximum, minimum + 12) });
  return fc.oneof({ weight: 8, arbitrary: usual }, fc.constantFrom(minimum, maximum));
}
