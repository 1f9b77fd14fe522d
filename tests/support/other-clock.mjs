// Loaded before a program by `--import`: its clock is four years, a day and some hours ahead.
const ahead = (4 * 365 + 2) * 86_400_000 + 12_345_678;

globalThis.Date = new Proxy(Date, {
  apply: (clock) => new clock(clock.now() + ahead).toString(),
  construct: (clock, words, made) => Reflect.construct(clock, words.length === 0 ? [clock.now() + ahead] : words, made),
  get: (clock, name) => (name === 'now' ? () => clock.now() + ahead : Reflect.get(clock, name)),
});
