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
