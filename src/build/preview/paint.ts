/** Colours of the service sheet in daylight, as src/styles/base.css has them. */
export const paint = {
  paper: '#f6f2e8',
  card: '#fffdf7',
  ink: '#1d1b16',
  faint: '#57523f',
  rule: '#8d8672',
  signal: '#a8330a',
} as const;
