const slugPattern = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** The name a draft is kept and downloaded under where its author has given none yet. */
export const untitled = 'untitled';

/** The draft's slug as typed, or `untitled` where it is none: small letters, digits, single hyphens, at most 40. */
export function slugOfDraft(typed: string): string {
  const slug = typed.trim().toLowerCase();
  return isSlug(slug) ? slug : untitled;
}

export function isSlug(text: string): boolean {
  return text.length <= 40 && slugPattern.test(text);
}

/**
 * Where a draft belongs in the project: the folder is the block that its front matter names.
 * @example fileOfDraft('---\nblock: power\n', 'psu-5v-low') === 'content/trees/power/psu-5v-low.mdx'
 */
export function fileOfDraft(text: string, slug: string): string {
  const block =
    /^block:[ \t]*["']?([a-z0-9-]{1,40})["']?[ \t]*\r?$/mu.exec(text.slice(0, 20_000))?.[1] ?? 'no-block-yet';
  return `content/trees/${block}/${slug}.mdx`;
}

/** Wraps a file for a post in Markdown: a fence longer than any run of backticks in it. */
export function postAsMarkdown(text: string, file: string): string {
  const longest = Math.max(2, ...[...text.matchAll(/`+/gu)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  return `${file}\n\n${fence}mdx\n${text.replace(/\n?$/u, '\n')}${fence}\n`;
}

/** Wraps a file for a post in BBCode; undefined where the text itself would end the code. */
export function postAsBbcode(text: string, file: string): string | undefined {
  return /\[\/code\]/iu.test(text) ? undefined : `${file}\n[code]\n${text.replace(/\n?$/u, '\n')}[/code]\n`;
}
