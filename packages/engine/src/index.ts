export type * from './account/types.ts';
export type * from './air/types.ts';
export type * from './heat/types.ts';
export type * from './ledger/types.ts';
export type * from './loads/types.ts';
export type * from './rules/types.ts';
export type * from './survey/types.ts';
export * from './units/index.ts';
