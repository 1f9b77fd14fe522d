// What the page of a cause has beside what every step has.
import './photo-taker.ts';
import './repair-result.ts';
