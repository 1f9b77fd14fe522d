/** Says that an answer is gone. The button pressed is gone with its line, so the focus goes to the head of the list. */
export function sayTakenBack(title: string): void {
  const said = document.querySelector('[data-undone]');
  if (said !== null) said.textContent = `Undone: ${title}. The browser’s Back restores it.`;
  document.querySelector<HTMLElement>('details.walked summary')?.focus();
}
