import { type ExplainedMessage, explainedMessages } from '#compiler/find-explanation.ts';
import { printExamples } from '#compiler/reporters/explanation.ts';
import { ruleGroups } from '#compiler/rules/rule.ts';

const headings: Readonly<Record<ExplainedMessage['group'], string>> = {
  reading: 'Reading the file',
  structure: 'Structure',
  measurement: 'Measurement',
  safety: 'Safety',
  substance: 'Substance',
  language: 'Language',
  links: 'Addresses and links',
};

/** Every message a check can print, as Markdown: the text of `npm run check -- --explain <rule>`. */
export function printMessageReference(): string {
  return (['reading', ...ruleGroups] as const)
    .map((group) => {
      const own = explainedMessages.filter((message) => message.group === group);
      return [`### ${headings[group]}`, ...own.map(printMessage)].join('\n\n');
    })
    .join('\n\n');
}

function printMessage(message: ExplainedMessage): string {
  const { id, severity, says, why, all = [] } = message;
  const mark = severity === 'warning' ? ' (warning)' : '';
  // A fence without a language of its own, so that no formatter touches what stands in it.
  return `**${id}**${mark}. ${escapeTags(says)} ${escapeTags(why)}${all.map((line) => `\n- ${escapeTags(line)}`).join('')}\n\n\`\`\`text\n${printExamples(message)}\n\`\`\``;
}

/** A `<` outside of backticks would begin raw HTML. */
function escapeTags(text: string): string {
  return text
    .split('`')
    .map((part, index) => (index % 2 === 0 ? part.replaceAll('<', '\\<') : part))
    .join('`');
}
