import { preview } from 'astro';

// Usage: npm start: serves the built site and prints the address. PORT chooses another port; HOST=0.0.0.0 lets a phone in.
const port = Number(process.env['PORT'] ?? 4321);
const server = await preview({
  root: process.cwd(),
  logLevel: 'error',
  server: { port, host: process.env['HOST'] ?? 'localhost' },
});
console.log(
  `\nHalfsplit is at http://${server.host ?? 'localhost'}:${server.port}${process.env['BASE_PATH'] ?? '/'}\nStop it with Ctrl+C.`,
);
await server.closed();
