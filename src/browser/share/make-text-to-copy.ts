/** A field that holds a text to be copied by hand, or to be read. */
export function makeTextToCopy(text: string, label: string): HTMLTextAreaElement {
  const area = document.createElement('textarea');
  area.readOnly = true;
  area.rows = Math.min(14, text.split('\n').length + 1);
  area.value = text;
  area.setAttribute('aria-label', label);
  return area;
}
