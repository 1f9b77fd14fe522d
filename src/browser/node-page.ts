// All that the page of a single node loads at once, as one file.
import './node-walk.ts';
import './job-recorder.ts';
import { whenNear } from './kit/elements.ts';
import './share-panel.ts';

// Nothing but the page of a cause has a repair.
if (document.querySelector('repair-result') !== null) void import('./repair/repair-result.ts').catch(() => undefined);

const below = document.querySelector('.neighbourhood');
if (below !== null) whenNear(below, 'anywhere', () => void import('./bench-aids.ts').catch(() => undefined));
