export { type Dimension, dimensions, fromSi, toSi, type UnitOf, type UnitSystem } from './dimension.ts';
export { displayNumber, displayUnit, formatQuantity } from './format-quantity.ts';
export { type ParsedQuantity, parseQuantity, type QuantityError } from './parse-quantity.ts';
