import type { SearchResult } from '#core/search/find-trees.ts';
import type { NextDoor } from '#core/model/thesaurus.ts';
import { addressOf } from '#core/link/address.ts';

/** One result as an option of the listbox: a real link, with the matched words of its symptom phrase marked. */
export function makeOption(result: SearchResult, number: number, address: string): HTMLAnchorElement {
  const option = document.createElement('a');
  option.id = `search-result-${number}`;
  option.href = address;
  option.tabIndex = -1;
  option.setAttribute('role', 'option');
  option.setAttribute('aria-selected', 'false');
  option.className = result.isWeak ? 'result weak' : 'result';
  option.append(makeText('span', 'result-title', result.title));
  if (result.symptom !== '') option.append(makePhrase(result));
  const checks = result.checks === 1 ? '1 check' : `${result.checks} checks`;
  const about = [
    result.block,
    checks,
    ...(result.isWeak ? ['weak fit'] : []),
    ...(result.carry === '' ? [] : ['takes along what you said']),
  ];
  option.append(makeText('span', 'result-about', about.join(' · ')));
  return option;
}

function makePhrase({ symptom, marks }: SearchResult): HTMLElement {
  const phrase = makeText('span', 'result-phrase', '');
  let at = 0;
  for (const [start, end] of marks) {
    phrase.append(symptom.slice(at, start), makeText('mark', '', symptom.slice(start, end)));
    at = end;
  }
  phrase.append(symptom.slice(at));
  return phrase;
}

/** The card for a subject that is not in these pages; where it can kill, with the page that says why. */
export function makeStopCard(subject: NextDoor, base: string): readonly HTMLElement[] {
  const title = makeText('h2', '', subject.isLethal ? `Stop. ${subject.title}` : subject.title);
  const text = makeText('p', '', subject.says);
  if (subject.caution === undefined) return [title, text];
  const link = document.createElement('a');
  link.href = addressOf({ kind: 'caution', slug: subject.caution }, base);
  link.className = 'press';
  link.textContent = 'Why, and what to do';
  return [title, text, link];
}

/** Something answered, with a way to take it back. */
export function makeSaid(words: string, takeBack: () => void): HTMLElement {
  const said = makeText('span', 'said', `${words} `);
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = 'take back';
  button.setAttribute('aria-label', `Take back: ${words}`);
  button.addEventListener('click', takeBack);
  said.append(button);
  return said;
}

function makeText(name: string, className: string, text: string): HTMLElement {
  const element = document.createElement(name);
  if (className !== '') element.className = className;
  element.textContent = text;
  return element;
}
