/**
 * The room that marks how far the log reaches, outside the database: what a mark is stands in `lines.ts`, when one is
 * made in `marks.ts`, where they lie in `book.ts`, the arithmetic in `tree.ts`.
 */
export { copyMarks, hasMarks, marksFolderIn, type Read, readBook } from './book'
export { keyFileIn, publicKeyIn, signatureHolds, signingKeyIn } from './key'
export { answerLeaf, entryLeaf, type StoredAnswer } from './leaves'
export type { Counted, Mark, Why } from './lines'
export { type Marks, openMarks } from './marks'
export { makeTree, type Tree } from './tree'
