// Before the first paint: cautions already read start folded. The marks are those of caution-gate.ts.
(function () {
  var read = '';
  try {
    read = ' ' + (sessionStorage.getItem('halfsplit.cautions-read') || '') + ' ';
  } catch (refused) {
    return;
  }
  document.querySelectorAll('.caution.danger, .caution.warning').forEach(function (box) {
    var slug = ' ' + box.dataset.caution;
    var isRead = [' ', ':covered ', ':shut '].some(function (word, index) {
      return read.indexOf(slug + word) >= 0 && (index === 0 || box.dataset.openLive === undefined);
    });
    if (!isRead) return;
    box.classList.add('read');
    box.querySelector('details').open = false;
  });
})();
