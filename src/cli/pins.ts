import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { comparePins, type SymbolPin } from '#build/compare-pins.ts';
import { readContent } from '#build/library.ts';

const usage = `Usage: npm run pins -- DIR [--write FILE]
  DIR      a folder of symbol files (*.kicad_sym), such as the Debian package kicad-symbols 6.0.10 brings
  --write  also writes what the symbols say, one pin a line, for the tests to compare with`;

type Expression = string | readonly Expression[];

process.exitCode = run(process.argv.slice(2));

/** 0 all agree, 1 something differs, 2 the request is wrong. */
function run([folder, option, file]: readonly string[]): number {
  if (folder === undefined || (option !== undefined && (option !== '--write' || file === undefined))) {
    console.error(usage);
    return 2;
  }
  const symbols = readSymbols(folder);
  const lines: string[] = [];
  let differing = 0;
  let compared = 0;
  for (const part of readContent().library.parts.values()) {
    if (part.symbol === undefined) continue;
    const pins = symbols.get(part.symbol);
    if (pins === undefined) {
      console.log(`${part.slug}: no symbol ${part.symbol} in ${folder}`);
      differing += 1;
      continue;
    }
    lines.push(...[...pins].map(([number, { name, type }]) => [part.slug, number, name, type].join('\t')));
    for (const said of comparePins(part, pins)) {
      console.log(said);
      differing += 1;
    }
    compared += 1;
  }
  console.log(`${compared} parts compared, ${differing} pins differ`);
  if (file !== undefined) writeFileSync(file, `part\tpin\tname\ttype\n${lines.join('\n')}\n`);
  return differing > 0 ? 1 : 0;
}

/** Every symbol of a folder: its pins by their number. A symbol that extends another has that one's pins. */
function readSymbols(folder: string): ReadonlyMap<string, ReadonlyMap<string, SymbolPin>> {
  const symbols = new Map<string, ReadonlyMap<string, SymbolPin>>();
  // The rectangular drawings of logic are less reliable than the usual ones, which come after them and win.
  const files = readdirSync(folder).filter((name) => name.endsWith('.kicad_sym'));
  const isRectangular = (name: string): boolean => name.includes('_IEEE');
  for (const file of [...files.filter(isRectangular), ...files.filter((name) => !isRectangular(name))]) {
    const [library] = readExpressions(readFileSync(join(folder, file), 'utf8'));
    const entries = listsIn(library, 'symbol');
    for (const entry of entries) {
      const base = listsIn(entry, 'extends')[0]?.[1];
      const drawn = base === undefined ? entry : entries.find(([, name]) => name === base);
      if (typeof entry[1] === 'string' && drawn !== undefined) symbols.set(entry[1], new Map(pinsOf(drawn)));
    }
  }
  return symbols;
}

function pinsOf(symbol: readonly Expression[]): readonly (readonly [string, SymbolPin])[] {
  return [symbol, ...listsIn(symbol, 'symbol')].flatMap((body) =>
    // A body whose name ends in _2 is the same gate drawn the other way.
    String(body[1]).endsWith('_2')
      ? []
      : listsIn(body, 'pin').map((pin): readonly [string, SymbolPin] => [
          String(listsIn(pin, 'number')[0]?.[1]),
          { name: String(listsIn(pin, 'name')[0]?.[1]), type: String(pin[1]) },
        ]),
  );
}

function listsIn(expression: Expression | undefined, head: string): readonly (readonly Expression[])[] {
  if (expression === undefined || typeof expression === 'string') return [];
  return expression.filter((one): one is readonly Expression[] => typeof one !== 'string' && one[0] === head);
}

/** Lists in brackets, words and quoted text, as the symbol files are written. */
function readExpressions(text: string): readonly Expression[] {
  const open: Expression[][] = [[]];
  for (const [token, quoted] of text.matchAll(/[()]|"((?:[^"\\]|\\.)*)"|[^\s()"]+/g)) {
    if (token === '(') open.push([]);
    else if (token === ')') {
      const done = open.pop() ?? [];
      open.at(-1)?.push(done);
    } else open.at(-1)?.push(quoted ?? token);
  }
  return open[0] ?? [];
}
