/** Reads the sheet aloud, or stops; `onEnd` is called when the last sentence was said. True where it now reads. */
export function toggleReading(onEnd: () => void): boolean {
  const isReading = speechSynthesis.speaking || speechSynthesis.pending;
  speechSynthesis.cancel();
  if (isReading) return false;
  // Sentence by sentence: some browsers break off after a quarter of a minute.
  const sentences = findSentences().map((text) => new SpeechSynthesisUtterance(text));
  for (const sentence of sentences) {
    sentence.lang = 'en';
    speechSynthesis.speak(sentence);
  }
  sentences.at(-1)?.addEventListener('end', onEnd);
  return sentences.length > 0;
}

/** What stands on the sheet, in its order: open cautions, question, set-ups, instruction, target, answers. */
function findSentences(): readonly string[] {
  const places = document.querySelectorAll(
    '.caution:not([hidden]) summary, .caution:not([hidden]) .text, .heading, .setups li, .prose p, .prose li, .target h2, .target .reading, .outcome',
  );
  return [...places]
    .filter((place) => place.checkVisibility())
    .flatMap((place) =>
      (place.textContent ?? '')
        .replaceAll(/\s+/gu, ' ')
        .trim()
        .split(/(?<=[.?!:]) /u),
    )
    .filter((text) => text !== '');
}
