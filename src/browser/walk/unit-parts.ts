// What is fetched with the first unit that is chosen.
export { applyUnit } from '../apply-unit.ts';
export { fetchUnitSheet } from '../unit-sheet.ts';
