import { findNewEvents, mergeHistories } from '#core/log/history.ts';
import { type FiledPhoto, printJobFile, readJobFile } from '#core/log/job-file.ts';
import { addEvents, addPhoto, type History, listPhotos, readHistory, readPhotos } from './event-log.ts';
import { toBase64 } from './photos.ts';

const mostBytes = 64_000_000;

/** Gives one job, or all, to the person as a file. */
export async function saveFile(job?: string): Promise<void> {
  const { events } = await readHistory(job);
  const photos = await Promise.all((await readPhotos(job)).map(filePhoto));
  const made = new Date().toISOString();
  const text = printJobFile({ events, photos }, made);
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = `bench-log-${made.slice(0, 10)}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** What came of a file: a sentence or two, and the whole log as it is now where something new was in it. */
export interface Imported {
  readonly said: string;
  readonly history?: History;
}

/** Reads a file into the log, whole or not at all. */
export async function importFile(file: Blob): Promise<Imported> {
  if (file.size > mostBytes)
    return { said: 'The file is larger than 64 MB. Nothing was imported, and your log is as it was.' };
  // Always UTF-8: some browsers guess another encoding from the first bytes.
  const read = readJobFile(new TextDecoder().decode(await file.arrayBuffer()));
  if (read.kind === 'refused') return { said: read.message };
  const { events: own, unread } = await readHistory();
  const events = findNewEvents(own, read.file.events);
  const known = await listPhotos();
  const photos = read.file.photos.filter(({ id }) => !known.has(id));
  await addEvents(events);
  const kept = await Promise.all(
    photos.map(({ id, job, data }) =>
      addPhoto({ id, job, image: new Blob([fromBase64(data)], { type: 'image/jpeg' }) }),
    ),
  );
  const lost = kept.filter((isKept) => !isKept).length;
  if (events.length === 0 && photos.length === 0)
    return { said: 'Everything in this file is in your log already. Nothing was changed.' };
  const room = lost === 0 ? '' : ` There is no room for ${lost} of the photographs: keep the file.`;
  return {
    said: `Read: ${events.length} new entries and ${photos.length} photographs were added; what you had stays as it was.${room}`,
    history: { events: mergeHistories(own, events), unread },
  };
}

async function filePhoto({ id, job, image }: { id: string; job: string; image: Blob }): Promise<FiledPhoto> {
  return { id, job, data: await toBase64(image) };
}

function fromBase64(data: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(data), (letter) => letter.charCodeAt(0));
}
