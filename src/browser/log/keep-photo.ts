import { addPhoto, makeId } from './event-log.ts';
import { record } from './job-desk.ts';

const longestSidePixels = 1600;
const quality = 0.8;
/** What a file of the log carries at most: 4,000,000 characters of base64. */
const mostBytes = 2_900_000;

export interface KeptPhoto {
  readonly isKept: boolean;
  /** What to tell the person. */
  readonly message: string;
}

/** Makes a picture smaller and keeps it in a job. Drawing it anew also leaves out the place and the time that a camera writes into it. */
export async function keepPhoto(job: string, file: Blob, caption: string): Promise<KeptPhoto> {
  const image = await shrink(file);
  if (image === undefined || image.size > mostBytes) {
    return { isKept: false, message: 'This file is no picture that the browser can read. Nothing was kept.' };
  }
  const id = makeId();
  const isKept = await addPhoto({ id, job, image });
  const said = caption.slice(0, 300);
  await record(job, [{ kind: 'photo', photo: id, bytes: image.size, ...(said === '' ? {} : { caption: said }) }]);
  return {
    isKept,
    message: isKept
      ? `Kept in your bench log (${Math.ceil(image.size / 1000)} kB).`
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
