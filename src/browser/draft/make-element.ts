/** An element with a class and children; text goes in as text. */
export function makeElement<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  className: string,
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  if (className !== '') element.className = className;
  element.append(...children);
  return element;
}
