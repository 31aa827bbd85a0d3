import { z } from 'zod';
import { FACES } from './faces';

/** Longest length a file may hold, mm: 100 m. */
export const LARGEST_LENGTH = 100_000;
/** Most things a list of the shop may hold. */
export const LONGEST_LIST = 5_000;
/** Most things a list of one job may hold: with more, a plan would take seconds to evaluate and hundreds of pages to print. */
export const LONGEST_JOB_LIST = 500;
/** Most characters of a text. */
export const LONGEST_TEXT = 2_000;
const LONGEST_ID = 100;
const MOST_PIECES = 1_000_000;
/** Above any force, stress or price that makes sense; keeps sums finite. */
const LARGEST_NUMBER = 1e9;

/** A length that may be nothing, mm. */
export const lengthSchema = z.number().min(0).max(LARGEST_LENGTH);
/** A size of something that exists, mm. */
export const sizeSchema = z.number().gt(0).max(LARGEST_LENGTH);
/** A place along an axis, mm; may be negative. */
export const placeSchema = z.number().min(-LARGEST_LENGTH).max(LARGEST_LENGTH);

/** Any quantity of 0 or more that is not a length. */
export const amountSchema = z.number().min(0).max(LARGEST_NUMBER);
/** Any quantity over 0 that is not a length. */
export const positiveSchema = z.number().gt(0).max(LARGEST_NUMBER);
export const fractionSchema = z.number().min(0).max(1);
export const countSchema = z.number().int().min(0).max(MOST_PIECES);
/** Pieces of one part; the engine counts no further. */
export const quantitySchema = z.number().int().min(1).max(1_000_000);
export const piecesSchema = z.number().int().min(1).max(MOST_PIECES);

export const textSchema = z.string().max(LONGEST_TEXT);
export const notesSchema = z.string().max(10 * LONGEST_TEXT);
/** The id of a thing that is here. */
export const idSchema = z.string().min(1).max(LONGEST_ID);
/** The id of a thing that may still have to be picked. */
export const referenceSchema = z.string().max(LONGEST_ID);

/** A list no longer than a file may reasonably hold. */
export function getListSchema<T extends z.ZodType>(entry: T, longest = LONGEST_LIST) {
  return z.array(entry).max(longest);
}

/** Left to the engine, or fixed by the user. */
export function getChoiceSchema<T extends z.ZodType>(value: T) {
  return z.union([z.literal('auto'), z.object({ pinned: value })]);
}

/** One value for each face. */
export function getPerFaceSchema<T extends z.ZodType>(value: T) {
  return z.object({ top: value, bottom: value, fixedSide: value, movingSide: value, leftEnd: value, rightEnd: value });
}

export const faceSchema = z.enum(FACES);
