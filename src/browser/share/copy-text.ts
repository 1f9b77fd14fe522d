/**
 * Copies a text that may still be on its way; called straight from a press, so that browsers that count the press from its start
 * allow it. False where the browser refuses or the text does not come.
 */
export async function copyText(text: Promise<string>): Promise<boolean> {
  try {
    if (typeof ClipboardItem === 'undefined') await navigator.clipboard.writeText(await text);
    else {
      const plain = text.then((said) => new Blob([said], { type: 'text/plain' }));
      await navigator.clipboard.write([new ClipboardItem({ 'text/plain': plain })]);
    }
    return true;
  } catch {
    return false;
  }
}

/** A field that holds a text to be copied by hand, or to be read. */
export function makeTextToCopy(text: string, label: string): HTMLTextAreaElement {
  const area = document.createElement('textarea');
  area.readOnly = true;
  area.rows = Math.min(14, text.split('\n').length + 1);
  area.value = text;
  area.setAttribute('aria-label', label);
  return area;
}
