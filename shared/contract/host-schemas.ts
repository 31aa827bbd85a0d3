import { z } from 'zod';
import { planSchema } from '../model/plan-schema';
import type { SameType } from '../model/same-type';
import { shopSchema } from '../model/shop-schema';
import type { HostCalls, HostVerb } from './host';

const tokenSchema = z.string().min(1).max(200);
const nameSchema = z.string().max(1000);

/** A square of 100 mm comes out of no printer larger than this, mm. */
const measuredSchema = z.number().gt(0).max(1000).nullable();

const viewChoiceSchema = z.object({
  view: z.enum(['elevation', 'section', 'plan', 'stack', 'shelf', 'part']),
  partId: nameSchema,
  blankIndex: z.number().int().min(0).max(100_000).nullable(),
  sectionX: z.number().min(-100_000).max(100_000).nullable(),
  sectionPass: z.enum(['cutOff', 'endMill']),
});

/** A picture of 4000 by 3000 px takes a tenth of it. */
const MOST_PICTURE = 16_000_000;

const fileHandleSchema = z.object({
  token: tokenSchema,
  name: nameSchema,
  folder: z.string().max(10_000),
  stamp: z.string().max(200),
  readOnly: z.boolean(),
  fromNewer: z.boolean(),
});

const targetSchema = z.object({ folder: tokenSchema, name: nameSchema, replace: z.boolean() }).nullable();

/** Most that a list may hold: more than the longest cut list. */
const MOST_ROWS = 100_000;
const MOST_CELLS = 200;
const LONGEST_CELL = 25_000;

const emptySchema = z.record(z.string(), z.never());

/** What each host call takes. Whatever comes from the page is read by these before anything is done with it. */
export const hostRequestSchemas = {
  start: emptySchema,
  openPlan: z.object({ token: tokenSchema.nullable() }),
  browse: z.object({ folder: tokenSchema.nullable() }),
  browseFiles: z.object({ folder: tokenSchema.nullable(), show: z.enum(['drawing', 'list', 'shop']) }),
  openSample: z.object({ sample: nameSchema }),
  leavePlan: emptySchema,
  savePlan: z.object({ plan: planSchema, file: fileHandleSchema, overwriteChanged: z.boolean() }),
  savePlanAs: z.object({ plan: planSchema, suggestedName: nameSchema, target: targetSchema }),
  saveShop: z.object({ shop: shopSchema }),
  loadShop: emptySchema,
  exportSheet: z.object({
    plan: planSchema,
    shop: shopSchema,
    format: z.enum(['pdf', 'svg', 'dxf']),
    measuredSquare: measuredSchema,
    workings: z.boolean(),
    fileName: nameSchema,
    suggestedName: nameSchema,
    target: targetSchema,
  }),
  renderSheet: z.object({
    plan: planSchema,
    shop: shopSchema,
    measuredSquare: measuredSchema,
    workings: z.boolean(),
    fileName: nameSchema,
  }),
  exportView: z.object({
    plan: planSchema,
    shop: shopSchema,
    choice: viewChoiceSchema,
    format: z.enum(['svg', 'dxf']),
    suggestedName: nameSchema,
    target: targetSchema,
  }),
  exportPicture: z.object({
    pngBase64: z.string().min(1).max(MOST_PICTURE),
    suggestedName: nameSchema,
    target: targetSchema,
  }),
  exportCutList: z.object({ plan: planSchema, shop: shopSchema, suggestedName: nameSchema, target: targetSchema }),
  readOutline: z.object({ token: tokenSchema.nullable() }),
  readTable: z.object({ token: tokenSchema.nullable(), delimiter: z.string().length(1).nullable() }),
  exportTable: z.object({
    rows: z.array(z.array(z.string().max(LONGEST_CELL)).max(MOST_CELLS)).max(MOST_ROWS),
    delimiter: z.enum([',', ';', '\t']),
    suggestedName: nameSchema,
    target: targetSchema,
  }),
  readShop: z.object({ token: tokenSchema.nullable() }),
  exportShop: z.object({ shop: shopSchema, suggestedName: nameSchema, target: targetSchema }),
  writeJournal: z.object({ plan: planSchema, file: fileHandleSchema.nullable(), shop: shopSchema.nullable() }),
  discardJournal: emptySchema,
  restoreLeft: z.object({ id: tokenSchema }),
  discardLeft: z.object({ ids: z.array(tokenSchema).max(1000) }),
  recents: emptySchema,
  setTitle: z.object({ title: z.string().max(2000), unsaved: z.boolean() }),
} as const satisfies { [V in HostVerb]: z.ZodType<HostCalls[V]['request']> };

/** Compile-time proof that each schema yields the request of the contract, no more and no less. */
export const hostSchemaProofs: {
  [V in HostVerb]: SameType<z.infer<(typeof hostRequestSchemas)[V]>, HostCalls[V]['request']>;
} = {
  start: true,
  openPlan: true,
  browse: true,
  browseFiles: true,
  openSample: true,
  leavePlan: true,
  savePlan: true,
  savePlanAs: true,
  saveShop: true,
  loadShop: true,
  exportSheet: true,
  renderSheet: true,
  exportView: true,
  exportPicture: true,
  exportCutList: true,
  readOutline: true,
  readTable: true,
  exportTable: true,
  readShop: true,
  exportShop: true,
  writeJournal: true,
  discardJournal: true,
  restoreLeft: true,
  discardLeft: true,
  recents: true,
  setTitle: true,
};
