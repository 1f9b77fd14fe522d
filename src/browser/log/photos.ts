import type { Job } from '#core/log/job.ts';
import { makeElement } from '../kit/elements.ts';
import { addPhoto, makeId, readPhotos } from './event-log.ts';
import { record } from './job-desk.ts';
import { fillLong, makeTime } from './long-list.ts';

const longestSidePixels = 1600;
const quality = 0.8;
/** What a file of the log carries at most: 4,000,000 characters of base64. */
const mostBytes = 2_900_000;

export interface KeptPhoto {
  readonly isKept: boolean;
  /** What to tell the person. */
  readonly message: string;
}

/** Makes a picture smaller and keeps it in a job. Drawing it again also leaves out the place and the time that a camera writes into it. */
export async function keepPhoto(job: string, file: Blob, caption: string): Promise<KeptPhoto> {
  const image = await shrink(file);
  if (image === undefined || image.size > mostBytes) {
    return { isKept: false, message: 'The browser cannot read this file as a picture. Nothing was saved.' };
  }
  const id = makeId();
  const isKept = await addPhoto({ id, job, image });
  const said = caption.slice(0, 300);
  await record(job, [{ kind: 'photo', photo: id, bytes: image.size, ...(said === '' ? {} : { caption: said }) }]);
  return {
    isKept,
    message: isKept
      ? `Saved in your bench log (${Math.ceil(image.size / 1000)} kB).`
      : 'There is no room for it in this browser: keep the one in your camera, and save the job as a file before you leave this page.',
  };
}

async function shrink(file: Blob): Promise<Blob | undefined> {
  try {
    const picture = await createImageBitmap(file, { imageOrientation: 'from-image' });
    const scale = Math.min(1, longestSidePixels / Math.max(picture.width, picture.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    const pen = canvas.getContext('2d');
    if (pen === null) return undefined;
    // JPEG has no transparency: without this, clear parts turn black.
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    return await new Promise((resolve) => canvas.toBlob((blob) => resolve(blob ?? undefined), 'image/jpeg', quality));
  } catch {
    return undefined;
  }
}

let shown = '';

/** Shows the photographs of a job; drawn again only if there are others than before. */
export async function fillPhotos(list: HTMLElement, job: Job): Promise<void> {
  const key = `${job.id} ${job.photos.map(({ photo }) => photo).join(' ')}`;
  if (key === shown) return;
  shown = key;
  const images = new Map((await readPhotos(job.id)).map(({ id, image }) => [id, image] as const));
  if (key !== shown) return;
  fillLong(list, job.photos, ({ photo, caption, at }) => {
    const image = images.get(photo);
    const alt = caption ?? 'A photograph of the unit';
    const picture = image === undefined ? 'This picture is not in this browser.' : makeElement('img', { alt });
    if (image !== undefined && picture instanceof HTMLImageElement)
      void printDataAddress(image).then((address) => picture.setAttribute('src', address));
    return makeElement(
      'li',
      {},
      picture,
      makeElement('p', {}, makeElement('bdi', {}, caption ?? ''), ' ', makeTime(at)),
    );
  });
}

/** A picture as an address that the page’s policy lets it show. */
async function printDataAddress(image: Blob): Promise<string> {
  return `data:image/jpeg;base64,${await toBase64(image)}`;
}

/** The bytes of a picture as a file of the log carries them. */
export async function toBase64(image: Blob): Promise<string> {
  const bytes = new Uint8Array(await image.arrayBuffer());
  let text = '';
  for (let from = 0; from < bytes.length; from += 0x8000) {
    text += String.fromCharCode(...bytes.subarray(from, from + 0x8000));
  }
  return btoa(text);
}
