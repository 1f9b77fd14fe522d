// Runs while the page is still being read, before the first paint: cautions already read in this job start folded.
// What the words after a colon mean says src/browser/caution-gate.ts; with power on and the case open only the bare slug counts here.
(function () {
  var read = '';
  try {
    read = ' ' + (sessionStorage.getItem('halfsplit.cautions-read') || '') + ' ';
  } catch (refused) {
    return;
  }
  document.querySelectorAll('.caution.stop, .caution.danger').forEach(function (box) {
    var slug = ' ' + box.dataset.caution;
    var isRead = [' ', ':covered ', ':shut '].some(function (word, index) {
      return read.indexOf(slug + word) >= 0 && (index === 0 || box.dataset.openLive === undefined);
    });
    if (!isRead) return;
    box.classList.add('read');
    box.querySelector('details').open = false;
  });
})();
