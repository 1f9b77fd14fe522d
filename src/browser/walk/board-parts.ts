// What is fetched with the first board that is chosen.
export { applyBoard } from '../apply-board.ts';
export { fetchBoardSheet } from '../board-sheet.ts';
