import { type Keep, makeAnew } from '#compiler/keep.ts';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { threadId } from 'node:worker_threads';

/** Results of slow, pure work from run to run, each in a file named by a hash of everything it depends on. */
const home = 'node_modules/.cache/halfsplit';
/** What a result depends on beside its inputs. */
const program = ['src/compiler', 'src/core', 'src/build', 'public/fonts', 'package-lock.json'];
/** Old results are cleared away when there are so many. */
const mostKept = 20_000;

/**
 * Keeps results for the project at `root`. One that cannot be read is made again; where nothing can be written, or the
 * program does not lie there too, everything is made again. Results are data that v8 can serialize: no classes, no functions.
 */
export function keepOnDisk(root: string): Keep {
  if (!program.every((part) => existsSync(join(root, part)))) return makeAnew;
  const folder = openFolder(root);
  return (kind, inputs, make) => {
    const file = join(folder, `${kind}-${hashOf(inputs())}`);
    try {
      return deserialize(readFileSync(file));
    } catch {
      const result = make();
      writeWhole(file, serialize(result));
      return result;
    }
  };
}

const digests = new Map<string, string>();

/** One hash of several texts. A long one is read once, however often it is given. */
function hashOf(texts: readonly string[]): string {
  const sum = createHash('sha256');
  for (const text of texts) {
    let digest = text;
    if (text.length > 1000) {
      digest = digests.get(text) ?? createHash('sha256').update(text).digest('hex');
      digests.set(text, digest);
    }
    sum.update(`${digest.length} ${digest}`);
  }
  return sum.digest('hex').slice(0, 32);
}

/** Another program keeps its results in another folder: those of the one before are cleared away. */
function openFolder(root: string): string {
  const version = hashOf([process.version, ...program.flatMap((part) => readTexts(join(root, part)))]);
  const all = join(root, home);
  const folder = join(all, version);
  try {
    mkdirSync(folder, { recursive: true });
    for (const other of readdirSync(all)) if (other !== version) rmSync(join(all, other), { recursive: true });
    if (readdirSync(folder).length > mostKept) for (const old of readdirSync(folder)) rmSync(join(folder, old));
  } catch {
    // Another run clears the same folder, or nothing may be written: what is missing is made again.
  }
  return folder;
}

/** The texts of a file, or of all files of a folder in the order of their names. */
function readTexts(path: string): readonly string[] {
  if (!statSync(path).isDirectory()) return [readFileSync(path, 'utf8')];
  return readdirSync(path, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .flatMap((file) => [relative(path, file), readFileSync(file, 'utf8')]);
}

/** Writes a file that nobody ever sees half written; where that is not allowed, none. */
function writeWhole(file: string, bytes: Uint8Array): void {
  const draft = `${file}.${process.pid}.${threadId}`;
  try {
    writeFileSync(draft, bytes);
    renameSync(draft, file);
  } catch {
    // It is made again the next time.
  }
}
