import { makeElement } from '../kit/elements.ts';

/** What `<job-recorder>` may have to say, each line hidden until it is so. That an answer is saved is the rule, and not read out at every step. */
export function makeLines(log: string): readonly HTMLElement[] {
  const line = (name: string, ...children: readonly (HTMLElement | string)[]): HTMLElement =>
    makeElement('p', { [`data-job-${name}`]: true, hidden: true }, ...children);
  const button = (name: string, text: string): HTMLElement =>
    makeElement('button', { type: 'button', class: 'press plain', [`data-job-${name}`]: true }, text);
  const choice = (value: string, text: string): HTMLElement =>
    makeElement('button', { type: 'button', class: 'press plain', 'data-job-choice': value }, text);
  return [
    line(
      'kept',
      makeElement('span', { 'data-job-said': true }, 'Saved in your bench log:'),
      ' ',
      makeElement('a', { 'data-job-link': true, dir: 'auto', href: log }, 'this job'),
    ),
    line('carry', button('take', 'Use this job’s readings')),
    makeElement('p', { role: 'status', 'data-job-carried': true }),
    makeElement(
      'div',
      { role: 'status' },
      makeElement(
        'div',
        { 'data-job-ask': true, hidden: true },
        makeElement(
          'p',
          {},
          'Your open job is “',
          makeElement('b', { 'data-job-asked': true, dir: 'auto' }),
          '”. Is this the same unit, or another?',
        ),
        makeElement('p', {}, choice('same', 'The same unit'), ' ', choice('new', 'Another unit')),
      ),
      line(
        'lasting',
        makeElement('span', { 'data-job-condition': true }),
        ' ',
        button('save', 'Save the job as a file'),
      ),
      line(
        'failed',
        'The last answer could not be saved in the bench log. The address of this page still holds it. ',
        button('again', 'Try again'),
      ),
    ),
  ];
}
