// The reader of abc text: any text to a tree, a tree back to its text.
export { printBook, readBook, rereadBook, tuneText } from './read/book.ts';
export { decorationNames } from './read/decoration.ts';
export { textErrorCodes } from './read/errors.ts';
export type { Include } from './read/include.ts';
export { OUR_INSTRUCTION } from './read/instruction.ts';
export { plainText } from './read/plain-text.ts';
export type { ReadOptions, ReuseCount } from './read/tune.ts';
export type * from './tree/fields.ts';
export type * from './tree/items.ts';
export type * from './tree/tree.ts';
