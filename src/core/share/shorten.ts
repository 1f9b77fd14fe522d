/** At most 40 characters of something hostile, for a message. */
export function shorten(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}
