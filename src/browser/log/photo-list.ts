import type { Job } from '#core/bench-log/job.ts';
import { makeElement } from '../kit/elements.ts';
import { readPhotos } from './event-log.ts';
import { printDataAddress } from './files.ts';
import { makeTime } from './render-job.ts';

let shown = '';

/** Shows the photographs of a job; drawn anew only where there are others than before. */
export async function fillPhotos(list: HTMLElement, job: Job): Promise<void> {
  const key = `${job.id} ${job.photos.map(({ photo }) => photo).join(' ')}`;
  if (key === shown) return;
  shown = key;
  const images = new Map((await readPhotos(job.id)).map(({ id, image }) => [id, image] as const));
  const items = await Promise.all(
    job.photos.map(async ({ photo, caption, at }) => {
      const image = images.get(photo);
      const picture =
        image === undefined
          ? makeElement('p', {}, 'This picture is not in this browser.')
          : makeElement('img', { src: await printDataAddress(image), alt: caption ?? 'A photograph of the unit' });
      return makeElement('li', {}, picture, makeElement('p', {}, caption ?? '', ' ', makeTime(at)));
    }),
  );
  if (key === shown) list.replaceChildren(...items);
}
