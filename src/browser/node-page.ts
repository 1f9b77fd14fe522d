// All that the page of a single node loads at once, as one file.
import './node-walk.ts';
import './bench-aids.ts';
import './job-recorder.ts';
import './photo-taker.ts';
import './repair-result.ts';
import './share-panel.ts';
